#include "report/text_readings.hpp"

#include <fmt/format.h>

#include <cmath>
#include <vector>

#include "report/figures.hpp"
#include "report/hot_words.hpp"
#include "report/legs_table.hpp"
#include "report/readings_table.hpp"
#include "report/thermal_words.hpp"
#include "report/words.hpp"

namespace idlepoint::report {
namespace {

using answers::Readings;

std::string readings_section(const Readings& answer, const Page& page) {
  const std::string table = readings_table(*answer.stage, answer.readings, answer.cold, page);
  if (table.empty()) {
    return fold("The file names no reading; ask for one with --reading \"volts A B\".", page);
  }
  std::string remarks = readings_remarks(*answer.stage, answer.state, answer.readings, page);
  if (answer.state.conditions().rails != 1.0 && answers::any_limit_broken(answer.readings)) {
    remarks += fold("Limits are the file's own, whatever the rails.", page);
  }
  const std::string when = answer.cold ? "\n\n" : " Just switched on:\n\n";
  return "Red lead on the point named first." + when + table +
         (remarks.empty() ? "" : "\n" + remarks);
}

std::string rails_in_one(const circuit::Circuit& circuit, const solve::OperatingPoint& state) {
  std::vector<std::string> rails;
  for (std::size_t index = 0; index < circuit.rails.size(); ++index) {
    const auto& rail = state.rail(circuit::RailId{index});
    rails.push_back(fmt::format("{} {}, {}",
                                circuit.at(circuit.rails[index].node).name,
                                volts(rail.voltage_v),
                                amps(std::abs(rail.delivered_a))));
  }
  return fmt::format("{}; {} in all.", fmt::join(rails, "; "), watts(state.total_power_w()));
}

std::string rails_section(const Readings& answer, const Page& page) {
  const auto& circuit = *answer.stage;
  if (circuit.rails.empty()) return {};
  const std::string rails = rails_in_one(circuit, answer.state);
  if (!answer.cold) return fold("Rails so loaded: " + rails, page);
  return fold("Rails so loaded, just switched on: " + rails_in_one(circuit, answer.cold->state) +
                  " Warmed through: " + rails,
              page);
}

std::string warming(const Readings& answer, const Page& page) {
  if (!answer.thermal) return {};
  return warming_section(*answer.stage, answer.state, *answer.thermal, page);
}

std::string legs_section(const Readings& answer) {
  const auto* cold = answer.cold ? &answer.cold->state : nullptr;
  const std::string table = legs_table(*answer.stage, answer.state, cold);
  return table.empty() ? "" : "Volts to gnd at the legs, and the current:\n\n" + table;
}

void add_section(std::string& text, const std::string& section) {
  if (!section.empty()) text += "\n" + section;
}

}  // namespace

std::string text_of(const Readings& answer, const Page& page) {
  const auto& circuit = *answer.stage;
  std::string text = opening(circuit, answer.state.conditions(), answer.changes, page);
  text += trimmers_line(circuit, page);
  text += readings_section(answer, page);
  add_section(text, rails_section(answer, page));
  add_section(text, warming(answer, page));
  add_section(text, hot_section(circuit, answer.hot, page));
  add_section(text, legs_section(answer));
  add_section(text, warnings_list(answer.warnings, page));
  add_section(text, bands_in_words(circuit, answer.readings, answer.cold, page));
  text += taken_as_given(circuit, answer.state.conditions(), page);
  return text + standing_caution(circuit, page);
}

}  // namespace idlepoint::report
