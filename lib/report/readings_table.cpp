#include "report/readings_table.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "answers/taken_out.hpp"
#include "report/figures.hpp"
#include "report/one_or_both.hpp"
#include "report/words.hpp"
#include "values/format.hpp"

namespace idlepoint::report {
namespace {

// Name, points, resistors, then a figure and its band, once or twice.
using Row = std::vector<std::string>;
constexpr std::size_t first_figure = 3;

Row row_of(const circuit::Circuit& circuit, const answers::ReadingValue& reading) {
  return {reading.name,
          probe_in_words(circuit, reading.probe),
          resistors_in_brackets(circuit, reading.probe)};
}

std::string band_of(const answers::ReadingValue& reading) {
  if (!reading.band) return {};
  return band(reading.band->low, reading.band->high, reading.value, reading.unit);
}

std::string limit_in_words(const answers::ReadingValue& reading, const Page& page) {
  if (!reading.limit) return {};
  const auto bound = [&](double value) {
    return as_written(answers::in_own_unit(value, reading.unit), reading.unit);
  };
  const std::string range = bound(reading.limit->low) + " to " + bound(reading.limit->high);
  if (reading.within_limit == true) return "   within your " + range;
  if (!reading.within_limit) return "   your " + range + ": with all parts in";
  return "   " + emphasised("outside your " + range, page);
}

std::string line_of(const Row& row, const std::vector<std::size_t>& widths) {
  std::string line = " ";
  for (std::size_t column = 0; column < row.size(); ++column) {
    if (widths[column] == 0) continue;
    const bool is_figure = column >= first_figure;
    const bool is_band = is_figure && (column - first_figure) % 2 == 1;
    line += column == 0 || is_band ? " " : (column > first_figure ? "   " : "  ");
    line += is_figure && !is_band ? padded_left(row[column], widths[column])
                                  : padded_right(row[column], widths[column]);
  }
  return line;
}

// Above the two figures with their bands, made as wide as the titles.
std::string titles_line(std::vector<std::size_t>& widths) {
  constexpr std::size_t second_figure = first_figure + 2;
  const std::string cold = "just switched on";
  const std::string warm = "warmed through";
  std::string line = " ";
  for (std::size_t column = 0; column < first_figure; ++column) {
    if (widths[column] > 0) line += (column == 0 ? " " : "  ") + std::string(widths[column], ' ');
  }
  const auto block = [&](std::size_t first) {
    return widths[first] + (widths[first + 1] > 0 ? 1 + widths[first + 1] : 0);
  };
  const auto widen = [&](std::size_t first, const std::string& title) {
    const std::size_t wide = block(first);
    if (wide < title.size()) {
      widths[first + (widths[first + 1] > 0 ? 1 : 0)] += title.size() - wide;
    }
  };
  widen(first_figure, cold);
  widen(second_figure, warm);
  const auto place = [&](std::size_t first, const std::string& title) {
    return widths[first + 1] > 0 ? padded_right(title, block(first))
                                 : padded_left(title, block(first));
  };
  line += "  " + place(first_figure, cold) + "   " + place(second_figure, warm);
  line.erase(line.find_last_not_of(' ') + 1);
  return line;
}

std::vector<Row> rows_of(const circuit::Circuit& circuit,
                         const std::vector<answers::ReadingValue>& readings,
                         const std::optional<answers::ColdMoment>& cold) {
  std::vector<Row> rows;
  for (std::size_t index = 0; index < readings.size(); ++index) {
    const auto& reading = readings[index];
    rows.push_back(row_of(circuit, reading));
    const auto add = [&](const answers::ReadingValue& one) {
      rows.back().push_back(figure(one.value, one.unit));
      rows.back().push_back(band_of(one));
    };
    if (cold) add(cold->readings.at(index));
    add(reading);
  }
  return rows;
}

std::string meter_remark(const circuit::Circuit& circuit, const answers::ReadingValue& reading) {
  if (!reading.as_metered || reading.with_parts_out == answers::WithPartsOut::reads_nothing) {
    return {};
  }
  const double pulled_v = std::abs(*reading.as_metered - reading.value);
  if (pulled_v <= 0.5e-3 || pulled_v <= 0.01 * std::abs(reading.value)) return {};
  return fmt::format("`{}`: a meter of {} across it pulls it to {}.",
                     reading.name,
                     values::format_ohms(circuit.meter.input_ohm),
                     volts(*reading.as_metered));
}

/// The names of the readings that stand so.
std::string names_of(const std::vector<answers::ReadingValue>& readings, answers::WithPartsOut so) {
  std::vector<std::string> names;
  for (const auto& reading : readings) {
    if (reading.with_parts_out == so) names.push_back("`" + reading.name + "`");
  }
  return list_in_words(names);
}

std::vector<std::string> with_parts_out(const circuit::Circuit& circuit,
                                        const std::vector<answers::ReadingValue>& readings) {
  std::vector<std::string> sentences;
  const std::string out = answers::names_taken_out(circuit);
  const std::string silent = names_of(readings, answers::WithPartsOut::reads_nothing);
  const std::string others = names_of(readings, answers::WithPartsOut::reads_others);
  const auto verb = [](const std::string& names, const char* one, const char* many) {
    return names.find(" and ") == std::string::npos ? one : many;
  };
  if (!silent.empty()) {
    sentences.push_back(fmt::format("With {} out {} {} nothing: no current is left there.",
                                    out,
                                    silent,
                                    verb(silent, "says", "say")));
  }
  if (!others.empty()) {
    sentences.push_back(fmt::format("With {} out {} {} the current of other parts alone.",
                                    out,
                                    others,
                                    verb(others, "shows", "show")));
  }
  return sentences;
}

}  // namespace

std::string readings_table(const circuit::Circuit& circuit,
                           const std::vector<answers::ReadingValue>& readings,
                           const std::optional<answers::ColdMoment>& cold,
                           const Page& page) {
  if (readings.empty()) return {};
  const auto rows = rows_of(circuit, readings, cold);
  std::vector<std::size_t> widths(rows.front().size(), 0);
  for (const auto& row : rows) {
    for (std::size_t column = 0; column < row.size(); ++column) {
      widths[column] = std::max(widths[column], width_of(row[column]));
    }
  }
  std::string text;
  if (cold) text += titles_line(widths) + "\n";
  for (std::size_t index = 0; index < rows.size(); ++index) {
    std::string line = line_of(rows[index], widths);
    const std::string limit = limit_in_words(readings[index], page);
    const bool fits = width_of(line) + width_of(limit) <= page.width;
    if (limit.empty() || !fits) line.erase(line.find_last_not_of(' ') + 1);
    if (!limit.empty() && !fits) line += "\n " + std::string(widths[0], ' ');
    text += line + limit + "\n";
  }
  return text;
}

std::string readings_remarks(const circuit::Circuit& circuit,
                             const solve::OperatingPoint& state,
                             const std::vector<answers::ReadingValue>& readings,
                             const Page& page) {
  std::string text;
  for (const auto& sentence : with_parts_out(circuit, readings)) text += fold(sentence, page);
  for (const auto& sentence : one_or_both(circuit, state, readings)) text += fold(sentence, page);
  for (const auto& reading : readings) {
    const std::string sentence = meter_remark(circuit, reading);
    if (!sentence.empty()) text += fold(sentence, page);
  }
  return text;
}

}  // namespace idlepoint::report
