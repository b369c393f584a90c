#include "report/readings_table.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "report/figures.hpp"
#include "report/one_or_both.hpp"
#include "report/words.hpp"
#include "values/format.hpp"

namespace idlepoint::report {
namespace {

using Row = std::array<std::string, 4>;  // name, points, resistors, figure

Row row_of(const circuit::Circuit& circuit, const answers::ReadingValue& reading) {
  return {reading.name,
          probe_in_words(circuit, reading.probe),
          resistors_in_brackets(circuit, reading.probe),
          figure(reading.value, reading.unit)};
}

std::string limit_in_words(const answers::ReadingValue& reading, const Page& page) {
  if (!reading.limit) return {};
  const auto bound = [&](double value) {
    return as_written(answers::in_own_unit(value, reading.unit), reading.unit);
  };
  const std::string range = bound(reading.limit->low) + " to " + bound(reading.limit->high);
  if (reading.within_limit == true) return "   within your " + range;
  return "   " + emphasised("outside your " + range, page);
}

std::string first_columns(const Row& row, const std::array<std::size_t, 4>& widths) {
  std::string line =
      "  " + padded_right(row[0], widths[0]) + "  " + padded_right(row[1], widths[1]);
  if (widths[2] > 0) line += "  " + padded_right(row[2], widths[2]);
  return line;
}

std::string meter_remark(const circuit::Circuit& circuit, const answers::ReadingValue& reading) {
  if (!reading.as_metered) return {};
  const double pulled_v = std::abs(*reading.as_metered - reading.value);
  if (pulled_v <= 0.5e-3 || pulled_v <= 0.01 * std::abs(reading.value)) return {};
  return fmt::format("`{}`: a meter of {} across it pulls it to {}.",
                     reading.name,
                     values::format_ohms(circuit.meter.input_ohm),
                     volts(*reading.as_metered));
}

}  // namespace

std::string readings_table(const circuit::Circuit& circuit,
                           const std::vector<answers::ReadingValue>& readings,
                           const Page& page) {
  std::vector<Row> rows;
  std::array<std::size_t, 4> widths{};
  for (const auto& reading : readings) {
    rows.push_back(row_of(circuit, reading));
    for (std::size_t column = 0; column < widths.size(); ++column) {
      widths[column] = std::max(widths[column], width_of(rows.back()[column]));
    }
  }
  std::string text;
  for (std::size_t index = 0; index < rows.size(); ++index) {
    text += first_columns(rows[index], widths) + "  " + padded_left(rows[index][3], widths[3]) +
            limit_in_words(readings[index], page) + "\n";
  }
  return text;
}

std::string readings_remarks(const circuit::Circuit& circuit,
                             const solve::OperatingPoint& state,
                             const std::vector<answers::ReadingValue>& readings,
                             const Page& page) {
  std::string text;
  for (const auto& sentence : one_or_both(circuit, state, readings)) text += fold(sentence, page);
  for (const auto& reading : readings) {
    const std::string sentence = meter_remark(circuit, reading);
    if (!sentence.empty()) text += fold(sentence, page);
  }
  return text;
}

}  // namespace idlepoint::report
