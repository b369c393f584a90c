#include "report/text_preset.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "report/crossover_words.hpp"
#include "report/figures.hpp"
#include "report/readings_table.hpp"
#include "report/thermal_words.hpp"
#include "report/trimmer_states_words.hpp"
#include "report/trimmer_words.hpp"
#include "report/words.hpp"
#include "values/format.hpp"

namespace idlepoint::report {
namespace {

using answers::Preset;
using answers::TrimmerAnswer;

std::string trimmer_block(const Preset& answer, const TrimmerAnswer& trimmer, const Page& page) {
  const auto& circuit = *answer.stage;
  std::string text = "\n" + fold(trimmer_heading(circuit, trimmer), page);
  if (trimmer.is_of_whole) text += fold(only_with_all_parts(circuit, trimmer), page, 2, 4);
  const auto add = [&](const std::string& sentence) {
    if (!sentence.empty()) text += fold(sentence, page, 2, 4);
  };
  add(safe_place(circuit, trimmer));
  add(expected_place(circuit, trimmer));
  text += "    " + travel_bar(circuit, trimmer) + "\n";
  add(found_in_circuit(circuit, trimmer));
  add(other_places(circuit, trimmer));
  add(how_fast(circuit, trimmer));
  add(both_ends(circuit, trimmer));
  add(lifted_wiper(circuit, trimmer));
  if (trimmer.meanwhile) add(bias_meanwhile(circuit, trimmer));
  return text;
}

std::string order_line(const Preset& answer, const Page& page) {
  if (answer.order.size() < 2) return {};
  std::vector<std::string> names;
  for (const std::size_t index : answer.order) {
    names.push_back(answer.stage->at(answer.adjustments[index].trimmer).name);
  }
  std::string text = fmt::format("Order: {}", fmt::join(names, ", then "));
  if (answer.goes_round_twice) {
    text += "; they disturb each other, so go round twice.";
  } else {
    text += names.size() == 2 ? "; then look at both once more."
                              : "; then look at all of them once more.";
  }
  return fold(text, page);
}

std::string ends_line(const Preset& answer, const Page& page) {
  std::string text = "Ends and lifted wipers are worked out ";
  if (answer.cold) text += "for the first cold moment";
  if (answer.cold && answer.order.size() > 1) text += ", ";
  if (answer.order.size() > 1) text += "with the other trimmers in their places";
  return answer.cold || answer.order.size() > 1 ? fold(text + ".", page) : "";
}

// 95 % of each working rail, equal ones of either sign said once.
std::string lowest_rails_line(const circuit::Circuit& circuit, const Page& page) {
  std::vector<std::string> volts;
  for (const auto& rail : circuit.rails) {
    constexpr double round_up = 1.0 + 1e-9;  // 31.35 is 31.4, not 31.3
    const double lowest_v =
        round_up * std::abs(circuit::source_v(rail)) * answers::lowest_rails_for_a_preset;
    const std::string text = values::format_value(lowest_v, values::Unit::volt);
    if (std::find(volts.begin(), volts.end(), text) == volts.end()) volts.push_back(text);
  }
  if (volts.empty()) return {};
  return fold(fmt::format("Set nothing with the rails below {} (95 %): what is set on low rails "
                          "can be far too high on full ones.",
                          list_in_words(volts)),
              page);
}

std::string rotation_line(const Preset& answer, const Page& page) {
  std::vector<std::string> unknown;
  for (const auto& trimmer : answer.adjustments) {
    const auto& part = answer.stage->at(trimmer.trimmer);
    if (!std::get<circuit::TrimmerDetails>(part.details).clockwise) unknown.push_back(part.name);
  }
  if (unknown.empty()) return {};
  return fold(
      fmt::format(
          "Which way {} clockwise was not entered: find the end with the meter, not "
          "by an arrow on the board.",
          unknown.size() == 1 ? unknown.front() + " turns" : list_in_words(unknown) + " turn"),
      page);
}

std::string readings_section(const Preset& answer, const Page& page) {
  const auto& circuit = *answer.stage;
  const std::string out = answers::names_taken_out(circuit);
  std::string text = "\nReadings there" + (out.empty() ? "" : ", with " + out + " out") +
                     (answer.cold ? ":\n\n" : ", just switched on:\n\n");
  text += readings_table(circuit, answer.readings, answer.cold, page);
  const auto remarks = readings_remarks(circuit, *answer.state, answer.readings, page);
  return text + (remarks.empty() ? "" : "\n" + remarks);
}

std::string refusal(const Preset& answer, const Page& page) {
  const auto& circuit = *answer.stage;
  std::string text = fold(circuit.title.empty() ? circuit.file : circuit.title + ".", page);
  text += "\n" + fold("No preset. " + *answer.refused, page);
  return text + "\n" + standing_caution(circuit, page);
}

}  // namespace

std::string text_of(const Preset& answer, const Page& page) {
  if (answer.refused) return refusal(answer, page);
  const auto& circuit = *answer.stage;
  const auto& conditions = answer.state->conditions();
  std::string text = opening(circuit, conditions, answer.changes, page);
  if (answer.aim) text += "\n" + fold(aim_in_words(answer), page);
  for (const std::size_t index : answer.order) {
    text += trimmer_block(answer, answer.adjustments[index], page);
  }
  text += "\n" +
          fold("Power off means the plug out, and the reservoirs discharged and measured.", page) +
          order_line(answer, page) + ends_line(answer, page) + lowest_rails_line(circuit, page) +
          rotation_line(answer, page);
  text += readings_section(answer, page);
  if (answer.thermal) {
    text += "\n" + warming_section(circuit, *answer.state, *answer.thermal, page);
  }
  const std::string warnings = warnings_list(answer.warnings, page);
  if (!warnings.empty()) text += "\n" + warnings;
  text += "\n" + bands_in_words(circuit, answer.readings, answer.cold, page) +
          taken_as_given(circuit, conditions, page);
  return text + standing_caution(circuit, page);
}

}  // namespace idlepoint::report
