#include "report/json_preset.hpp"

#include "report/crossover_words.hpp"
#include "report/json_poweroff.hpp"
#include "report/json_thermal.hpp"

namespace idlepoint::report {
namespace {

using answers::Preset;
using answers::TrimmerAnswer;
using answers::TrimmerState;

Json json_end(const std::optional<circuit::TrackEnd>& end) {
  if (!end) return nullptr;
  return *end == circuit::TrackEnd::a ? "a" : "b";
}

Json json_lifted(const TrimmerState& state) {
  Json object;
  object["reading"] = number_or_null(state.reading);
  object["total_power_W"] = number_or_null(state.total_power_w);
  object["hazard"] = state.hazard;
  return object;
}

void add_states(Json& object, const answers::TrimmerStates& states) {
  object["safe_end"] = json_end(states.safe_end);
  object["hardly_moves_until"] = number_or_null(states.wakes_at);
  object["reading_at_a"] = number_or_null(states.at_a.reading);
  object["reading_at_b"] = number_or_null(states.at_b.reading);
  object["total_power_at_a_W"] = number_or_null(states.at_a.total_power_w);
  object["total_power_at_b_W"] = number_or_null(states.at_b.total_power_w);
  object["wiper_open"] = json_lifted(states.wiper_open);
  if (states.wiper_open_tied) object["wiper_open_tied"] = json_lifted(*states.wiper_open_tied);
  if (states.wiper_open_free) object["wiper_open_free"] = json_lifted(*states.wiper_open_free);
}

Json json_adjustment(const circuit::Circuit& circuit, const TrimmerAnswer& answer) {
  const auto& trimmer = circuit.at(answer.trimmer);
  const double turns = std::get<circuit::TrimmerDetails>(trimmer.details).turns;
  Json object;
  object["trimmer"] = trimmer.name;
  object["reading"] = circuit.at(answer.reading).name;
  object["unit"] = answers::symbol(answer.unit);
  object["target"] = answer.target;
  object["within"] = answer.within;
  object["value"] = answer.value;
  if (answer.cold_value) object["cold_value"] = *answer.cold_value;
  object["reached"] = answer.reached;
  object["position"] = answer.travel;
  object["position_low"] = low_or_null(answer.travel_band);
  object["position_high"] = high_or_null(answer.travel_band);
  if (answer.travel_band) {
    object["position_band"] = answer.travel_band->bends ? "solved at its ends" : "linear";
  }
  object["other_positions"] = answer.other_travels;
  object["resistance_a_ohm"] = number_or_null(answer.ohms.a_to_wiper_ohm);
  object["resistance_b_ohm"] = number_or_null(answer.ohms.wiper_to_b_ohm);
  object["in_circuit"] = json_legs(circuit, answer.in_circuit.at_preset);
  object["in_circuit_at_safe_end"] = json_legs(circuit, answer.in_circuit.at_safe_end);
  object["slope_per_percent"] = answer.slope_per_travel / 100.0;
  if (turns != 1.0) object["slope_per_turn"] = answer.slope_per_travel / turns;
  add_states(object, answer.states);
  if (answer.is_of_whole) object["with_all_parts_in"] = true;
  if (answer.meanwhile) {
    const auto& bias = *answer.meanwhile;
    object["meanwhile"] = {{"reading", circuit::write_probe(circuit, bias.at.points)},
                           {"with_all_parts_in_V", bias.whole_v},
                           {"V", number_or_null(bias.v)},
                           {"at_safe_end_V", number_or_null(bias.safe_v)},
                           {"output_linked", bias.is_linked}};
  }
  return object;
}

Json json_of_aim(const Preset& answer) {
  const auto& aim = *answer.aim;
  const auto& trimmer = answer.adjustments.front();
  Json object;
  object["trimmer"] = answer.stage->at(trimmer.trimmer).name;
  object["reading"] = answer.stage->at(trimmer.reading).name;
  object["reads"] = circuit::write_probe(*answer.stage, answer.stage->at(trimmer.reading).probe);
  object["unit"] = answers::symbol(trimmer.unit);
  object["target"] = aim.target;
  object["makers_figure"] = false;
  object["is_flattest"] = aim.is_flattest;
  object["why"] = aim.is_flattest ? "flattest" : aim.is_published ? "published" : "cool";
  object["gain_ripple_percent"] = 100.0 * aim.gain_ripple;
  object["flattest_reading"] = aim.flattest_reading;
  object["flattest_gain_ripple_percent"] = 100.0 * aim.flattest_ripple;
  object["text"] = aim_in_words(answer);
  return object;
}

}  // namespace

Json json_adjustments(const Preset& answer) {
  Json list = Json::array();
  for (const auto& adjustment : answer.adjustments) {
    list.push_back(json_adjustment(*answer.stage, adjustment));
  }
  return list;
}

std::string json_of(const Preset& answer) {
  const auto& circuit = *answer.stage;
  Json object = json_opening("preset", circuit);
  if (answer.refused) object["refused"] = *answer.refused;
  if (answer.aim) object["aim"] = json_of_aim(answer);
  if (answer.state) {
    object["conditions"] = json_conditions(circuit, answer.state->conditions(), answer.changes);
  }
  object["adjustments"] = json_adjustments(answer);
  object["order"] = Json::array();
  for (const std::size_t index : answer.order) {
    object["order"].push_back(circuit.at(answer.adjustments[index].trimmer).name);
  }
  object["readings"] = json_readings(circuit, answer.readings);
  if (answer.cold) object["cold_readings"] = json_readings(circuit, answer.cold->readings);
  if (answer.thermal) add_thermal(object, circuit, *answer.thermal);
  object["warnings"] = answer.warnings;
  return printed(object);
}

}  // namespace idlepoint::report
