#include "answers/fit_problem.hpp"

#include <algorithm>
#include <cmath>

namespace idlepoint::answers {
namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

/// A limit is kept this much harder than its margin is wide.
constexpr double limit_hardness = 4.0;
constexpr double least_margin = 1e-4;
/// The residual of a point that the law cannot show at all: worse than any that it can.
constexpr double beyond_the_law = 1e5;

Index index_of(std::size_t index) { return static_cast<Index>(index); }

}  // namespace

FitProblem::FitProblem(const circuit::TypePoints& asked)
    : asked_(asked), parameters_(fit_parameters(asked)), starts_(asked.points.size()) {
  for (const circuit::TypePoint& point : asked.points) targets_.push_back(target_of(point));
  uses.assign(parameters_.size(), Use::free);
  u = VectorXd::Zero(index_of(parameters_.size()));
}

Law FitProblem::law_at(const VectorXd& there) const {
  Law law = asked_.type.law;
  if (auto* diode = std::get_if<devices::DiodeData>(&law)) {
    // The current of the first breakdown voltage is the test current, unless the file gives one.
    for (const auto& point : asked_.points) {
      if (point.quantity != circuit::PointQuantity::vz) continue;
      if (diode->zener_test_current_a <= 0.0) diode->zener_test_current_a = point.at[0];
    }
  }
  for (std::size_t i = 0; i < parameters_.size(); ++i) {
    if (uses[i] == Use::left_out) continue;
    const double here = is_moving(i) ? there[index_of(i)] : 0.0;
    store(law, parameters_[i], value_at(parameters_[i], here));
  }
  return law;
}

std::optional<double> FitProblem::predicted(const Law& law, std::size_t point) const {
  return predict(law, asked_.points[point], starts_[point]);
}

VectorXd FitProblem::point_residuals(const Law& law) const {
  VectorXd rows = VectorXd::Zero(rows_a_point * index_of(targets_.size()));
  for (std::size_t i = 0; i < targets_.size(); ++i) {
    const FitTarget& target = targets_[i];
    const Index row = rows_a_point * index_of(i);
    const auto value = predicted(law, i);
    if (!value) {
      rows[row] = beyond_the_law;
      continue;
    }
    const double number = scaled(target, *value);
    const double hardness = limit_hardness / std::max(target.margin, least_margin);
    if (target.aim) rows[row] = (number - *target.aim) / target.spread;
    if (target.low) {
      rows[row + 1] = hardness * std::max(0.0, *target.low + target.margin - number);
    }
    if (target.high) {
      rows[row + 2] = hardness * std::max(0.0, number + target.margin - *target.high);
    }
  }
  return rows;
}

VectorXd FitProblem::bounds(double FitParameter::*bound) const {
  VectorXd all(index_of(parameters_.size()));
  for (std::size_t i = 0; i < parameters_.size(); ++i) {
    all[index_of(i)] = u_of(parameters_[i], parameters_[i].*bound);
  }
  return all;
}

void FitProblem::fit() {
  std::vector<Index> moving;
  std::vector<Index> pulled;
  for (std::size_t i = 0; i < uses.size(); ++i) {
    if (is_moving(i)) moving.push_back(index_of(i));
    if (uses[i] == Use::pulled) pulled.push_back(index_of(i));
  }
  const auto residuals = [&](const VectorXd& some) {
    u(moving) = some;
    const VectorXd rows = point_residuals(law());
    VectorXd all(rows.size() + index_of(pulled.size()));
    all << rows, u(pulled);
    return all;
  };
  const VectorXd low = bounds(&FitParameter::low)(moving);
  const VectorXd high = bounds(&FitParameter::high)(moving);
  const VectorXd start = u(moving);
  u(moving) = minimise({residuals, low, high}, start);
}

MatrixXd FitProblem::point_slopes() const {
  const auto residuals = [this](const VectorXd& there) { return point_residuals(law_at(there)); };
  return slopes({residuals, {}, {}}, u);
}

std::vector<std::size_t> FitProblem::touched_limits() const {
  const Law now = law();
  std::vector<std::size_t> touched;
  for (std::size_t i = 0; i < targets_.size(); ++i) {
    const auto value = predicted(now, i);
    if (!value) continue;
    const double number = scaled(targets_[i], *value);
    const bool is_low = targets_[i].low && number < *targets_[i].low + targets_[i].margin;
    const bool is_high = targets_[i].high && number > *targets_[i].high - targets_[i].margin;
    if (is_low || is_high) touched.push_back(i);
  }
  return touched;
}

}  // namespace idlepoint::answers
