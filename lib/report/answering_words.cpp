#include "report/answering_words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "report/figures.hpp"
#include "report/words.hpp"

namespace idlepoint::report {
namespace {

using answers::Answering;

/// Of the reading: what moves it less is "nothing" at the bench.
constexpr double nothing = 0.005;
/// Of the reading: from here on the compared step matters.
constexpr double noticeable_share = 0.03;

std::string signed_step(const std::optional<double>& change,
                        double value,
                        answers::ReadingUnit unit) {
  if (!change) return "-";
  if (std::abs(*change) < nothing * std::abs(value)) return "nothing";
  return (*change > 0.0 ? "+" : "") + step(*change, unit);
}

bool has_gain(const circuit::Circuit& circuit, const Answering& one) {
  return circuit::is_bipolar(circuit.at(one.part).kind);
}

std::string table(const circuit::Circuit& circuit,
                  const std::vector<Answering>& of_one,
                  bool any_gain) {
  const auto unit = answers::unit_of(circuit.at(of_one.front().reading).probe);
  std::vector<TableRow> rows{{"", any_gain ? "base 10 mV lower" : "10 mV lower"}};
  if (any_gain) rows.front().insert(rows.front().end(), {"gain halved", "gain doubled"});
  for (const Answering& one : of_one) {
    TableRow row{circuit.at(one.part).name, signed_step(one.by_lower_volts, one.value, unit)};
    if (any_gain) {
      const bool gain = has_gain(circuit, one);
      row.push_back(gain ? signed_step(one.by_half_gain, one.value, unit) : "");
      row.push_back(gain ? signed_step(one.by_double_gain, one.value, unit) : "");
    }
    rows.push_back(std::move(row));
  }
  return table_of(rows);
}

std::string verdict(const circuit::Circuit& circuit, const std::vector<Answering>& of_one) {
  std::vector<std::string> named;
  bool volts_matter = false;
  for (const Answering& one : of_one) {
    if (answers::gain_matters(one)) named.push_back(circuit.at(one.part).name);
    volts_matter = volts_matter || std::abs(one.by_lower_volts.value_or(0.0)) >
                                       noticeable_share * std::abs(one.value);
  }
  if (!named.empty()) {
    return fmt::format("Gain matters here{}, that of {}: set the idle again after a change.",
                       volts_matter ? " too" : "",
                       list_in_words(named));
  }
  if (!volts_matter) return "Neither base volts nor gain matter to the standing current here.";
  return "For the standing current base volts matter, gain hardly: no need to select for gain on "
         "its account.";
}

std::string of_reading(const circuit::Circuit& circuit,
                       const std::vector<Answering>& of_one,
                       const Page& page) {
  const auto& reading = circuit.at(of_one.front().reading);
  const auto unit = answers::unit_of(reading.probe);
  std::string text =
      fold(fmt::format("What the standing current hears, trimmers untouched. `{}` is "
                       "{}, and would move by:",
                       reading.name,
                       figure(answers::in_own_unit(of_one.front().value, unit), unit)),
           page);
  const bool any_gain = std::any_of(
      of_one.begin(), of_one.end(), [&](const auto& one) { return has_gain(circuit, one); });
  text += "\n" + table(circuit, of_one, any_gain);
  return any_gain ? text + "\n" + fold(verdict(circuit, of_one), page) : text;
}

}  // namespace

std::string answering_section(const circuit::Circuit& circuit,
                              const std::vector<Answering>& answering,
                              const Page& page) {
  std::string text;
  for (auto first = answering.begin(); first != answering.end();) {
    const auto last = std::find_if(
        first, answering.end(), [&](const auto& one) { return one.reading != first->reading; });
    text += (text.empty() ? "" : "\n") + of_reading(circuit, {first, last}, page);
    first = last;
  }
  return text;
}

}  // namespace idlepoint::report
