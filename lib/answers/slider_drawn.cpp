// What is drawn between the exact solutions of a grid. Declared in answers/slider_grid.hpp.

#include "answers/interpolation.hpp"
#include "answers/slider_grid.hpp"

namespace idlepoint::answers {
namespace {

/// `values[k]` along one line of a grid, at four places of it.
std::vector<double> along_line(const std::vector<double>& axis,
                               std::size_t index,
                               const std::vector<const std::vector<double>*>& four,
                               double x) {
  std::vector<double> values(four[1]->size());
  for (std::size_t k = 0; k < values.size(); ++k) {
    Around around;
    around.low = (*four[1])[k];
    around.high = (*four[2])[k];
    if (four[0] != nullptr) around.before = (*four[0])[k];
    if (four[3] != nullptr) around.after = (*four[3])[k];
    values[k] = between(axis, index, around, x);
  }
  return values;
}

/// The four places around an interval; null beyond an end, and where `values_at` has nothing.
template <class ValuesAt>
std::vector<const std::vector<double>*> four_around(std::size_t places,
                                                    std::size_t index,
                                                    ValuesAt&& values_at) {
  std::vector<const std::vector<double>*> four(4, nullptr);
  for (std::size_t k = 0; k < 4; ++k) {
    if (index + k < 1 || index + k - 1 >= places) continue;
    const std::vector<double>* values = values_at(index + k - 1);
    if (values != nullptr && !values->empty()) four[k] = values;
  }
  return four;
}

SliderPoint why_not_drawn(const SliderGrid& grid,
                          const std::vector<SliderPoint>& points,
                          std::size_t first,
                          std::size_t second) {
  const std::size_t stride = grid.axes.size() == 2 ? grid.axes[1].size() : 0;
  for (const std::size_t row : {first, first + 1}) {
    for (const std::size_t column : {second, second + 1}) {
      const auto& point = points[stride == 0 ? row : row * stride + column];
      if (point.values.empty()) return {point.why_not};
    }
  }
  return {NoState::not_settled};
}

}  // namespace

SliderPoint drawn_at(const SliderGrid& grid,
                     const std::vector<SliderPoint>& points,
                     const std::vector<double>& travels) {
  if (grid.axes.empty()) return points.front();
  const auto& rows = grid.axes.front();
  const std::size_t row = interval_of(rows, travels.front());
  if (grid.axes.size() == 1) {
    const auto four =
        four_around(rows.size(), row, [&](std::size_t place) { return &points[place].values; });
    if (four[1] == nullptr || four[2] == nullptr) return why_not_drawn(grid, points, row, 0);
    return {NoState::none, along_line(rows, row, four, travels.front())};
  }
  const auto& columns = grid.axes[1];
  const std::size_t column = interval_of(columns, travels[1]);
  std::vector<std::vector<double>> lines(4);
  for (std::size_t k = 0; k < 4; ++k) {
    if (row + k < 1 || row + k - 1 >= rows.size()) continue;
    const std::size_t first = (row + k - 1) * columns.size();
    const auto four = four_around(
        columns.size(), column, [&](std::size_t place) { return &points[first + place].values; });
    if (four[1] == nullptr || four[2] == nullptr) continue;
    lines[k] = along_line(columns, column, four, travels[1]);
  }
  std::vector<const std::vector<double>*> four;
  for (const auto& line : lines) four.push_back(line.empty() ? nullptr : &line);
  if (four[1] == nullptr || four[2] == nullptr) return why_not_drawn(grid, points, row, column);
  return {NoState::none, along_line(rows, row, four, travels.front())};
}

}  // namespace idlepoint::answers
