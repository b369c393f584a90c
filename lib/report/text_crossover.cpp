#include "report/text_crossover.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

#include "report/crossover_words.hpp"
#include "report/figures.hpp"
#include "report/thermal_words.hpp"
#include "report/words.hpp"
#include "values/format.hpp"

namespace idlepoint::report {
namespace {

using answers::Crossover;
using answers::IdleSetting;

std::string refused(const Crossover& answer, const Page& page) {
  const auto& circuit = *answer.stage;
  std::string text = fold(circuit.title.empty() ? circuit.file : circuit.title + ".", page);
  text += "\n" + fold(*answer.refused, page);
  const std::string warnings = warnings_list(answer.warnings, page);
  if (!warnings.empty()) text += "\n" + warnings;
  return text + "\n" + standing_caution(circuit, page);
}

std::string remark(const Crossover& answer, std::size_t row) {
  const std::string shape = shape_in_words(answer.settings[row]);
  const std::string marks = marks_in_words(answer, row);
  return shape + (shape.empty() || marks.empty() ? "" : ": ") + marks;
}

std::string place_of(const circuit::Part& trimmer, double travel) {
  return is_variable_resistor(trimmer) ? values::format_ohms(travel * trimmer.value)
                                       : percent(travel);
}

std::string table(const Crossover& answer) {
  const auto& circuit = *answer.stage;
  const auto& adjustment = circuit.adjustments[answer.adjustment];
  const bool is_warm = answer.conditions.heat == solve::HeatState::warm;
  const auto sink = answers::hottest_sink(answer.settings.back());
  std::vector<std::string> remarks;
  std::size_t widest = 0;
  for (std::size_t row = 0; row < answer.settings.size(); ++row) {
    remarks.push_back(remark(answer, row));
    widest = std::max(widest, width_of(remarks.back()));
  }
  TableRow heading{circuit.at(adjustment.reading).name,
                   circuit.at(adjustment.trimmer).name,
                   "gain varies",
                   "from supply"};
  if (is_warm && sink) heading.push_back(circuit.at(*sink).name);
  if (is_warm) heading.emplace_back("of a watt back");
  heading.push_back(padded_right("", widest));
  std::vector<TableRow> rows{heading};
  for (std::size_t index = 0; index < answer.settings.size(); ++index) {
    const auto& setting = answer.settings[index];
    TableRow row{crossover_reading(answer, setting.reading),
                 place_of(circuit.at(adjustment.trimmer), setting.travel),
                 ripple_in_words(setting),
                 watts(setting.state.total_power_w())};
    if (is_warm && sink) row.push_back(celsius(setting.state.heatsink(*sink).temperature_k));
    if (is_warm) row.push_back(fmt::format("{:.2f}", setting.state.loop_gain()));
    row.push_back(padded_right(remarks[index], widest));
    rows.push_back(std::move(row));
  }
  return table_of(rows);
}

std::string introduction(const Crossover& answer) {
  const auto& circuit = *answer.stage;
  const auto& adjustment = circuit.adjustments[answer.adjustment];
  const auto& reading = circuit.at(adjustment.reading);
  return fmt::format(
      "How even the gain stays as the output swings through the middle into {}, for each standing "
      "current, and what that costs in heat. {} sets it, `{}` ({}) tells it.",
      values::format_ohms(answer.load_ohm),
      circuit.at(adjustment.trimmer).name,
      reading.name,
      probe_in_words(circuit, reading.probe));
}

}  // namespace

std::string text_of(const Crossover& answer, const Page& page) {
  if (answer.refused) return refused(answer, page);
  const auto& circuit = *answer.stage;
  std::string text = opening(circuit, answer.conditions, answer.changes, page);
  text += fold(introduction(answer), page) + "\n" + table(answer);
  for (const auto& sentence : all_in_words(answer)) text += "\n" + fold(sentence, page);
  if (answer.thermal) {
    const auto& at = answer.settings[answer.aim ? answer.aim->setting : answer.flattest];
    text += "\n" + fold(answer.aim ? "At that aim:" : "At the flattest:", page) +
            warming_section(*at.stage, at.state, *answer.thermal, page);
  }
  const std::string warnings = warnings_list(answer.warnings, page);
  if (!warnings.empty()) text += "\n" + warnings;
  text += "\n" + taken_as_given(circuit, answer.conditions, page);
  return text + standing_caution(circuit, page);
}

}  // namespace idlepoint::report
