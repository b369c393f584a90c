#include "report/json_swap.hpp"

#include "report/json_preset.hpp"
#include "report/json_thermal.hpp"
#include "report/swap_words.hpp"
#include "values/constants.hpp"

namespace idlepoint::report {
namespace {

using answers::Readings;
using answers::Swap;

Json json_stand_in(const answers::StandInTest& test) {
  Json object;
  object["current_A"] = test.amps;
  object["temperature_C"] = values::celsius_from_kelvin(test.temperature_k);
  object["before_V"] = test.old_v;
  object["after_V"] = test.new_v;
  object["before_V_per_K"] = test.old_v_per_k;
  object["after_V_per_K"] = test.new_v_per_k;
  object["needed_V_per_K"] = number_or_null(test.needed_v_per_k);
  object["coupling"] = test.coupling;
  return object;
}

Json json_swapped(const Swap& swap, const answers::Swapped& swapped) {
  Json object;
  object["part"] = swap.stage->at(swapped.part).name;
  object["from"] = swapped.from;
  object["to"] = swapped.to;
  if (swapped.control) {
    object["control_V_before"] = swapped.control->before_v;
    object["control_V_after"] = swapped.control->after_v;
    object["control_V_half_width"] = number_or_null(swapped.control->half_width_v);
  }
  if (swapped.stand_in) object["stand_in"] = json_stand_in(*swapped.stand_in);
  return object;
}

Json json_rating(const circuit::Circuit& circuit, const answers::RatingCheck& check) {
  Json object;
  object["part"] = circuit.at(check.part).name;
  object["rating"] = answers::word(check.rating);
  object["limit"] = number_or_null(check.limit);
  object["demand"] = number_or_null(check.demand);
  object["margin"] = number_or_null(check.margin);
  object["ok"] = check.ok ? Json(*check.ok) : Json(nullptr);
  if (check.at_v) object["at_V"] = *check.at_v;
  if (!check.limit) object["said"] = "not given";
  return object;
}

Json json_readings_of(const answers::Side& side) {
  const Readings* answer = answers::readings_of(side);
  return answer == nullptr ? Json(nullptr) : json_readings(*answer->stage, answer->readings);
}

Json json_cold_readings_of(const answers::Side& side) {
  const Readings* answer = answers::readings_of(side);
  if (answer == nullptr || !answer->cold) return nullptr;
  return json_readings(*answer->stage, answer->cold->readings);
}

Json json_margin(const std::optional<double>& loop_gain) {
  return loop_gain ? Json(1.0 - *loop_gain) : Json(nullptr);
}

Json json_cures(const Swap& swap) {
  Json list = Json::array();
  for (const auto& cure : swap.cures) {
    Json object;
    object["resistor"] = swap.stage->at(cure.resistor).name;
    object["from_ohm"] = cure.from_ohm;
    object["to_ohm"] = cure.to_ohm;
    object["position"] = cure.travel;
    list.push_back(std::move(object));
  }
  return list;
}

Json json_drive(const Swap& swap, const std::vector<answers::PeakDrive>& drive) {
  Json object = Json::object();
  for (const auto& one : drive) object[swap.stage->at(one.part).name] = one.base_a;
  return object;
}

Json json_sharing(const Swap& swap) {
  Json list = Json::array();
  for (const auto& sharing : swap.sharing) {
    Json object = Json::object();
    for (const auto& share : sharing.shares) object[swap.stage->at(share.part).name] = share.amps;
    list.push_back(std::move(object));
  }
  return list;
}

Json json_answering(const Swap& swap) {
  Json list = Json::array();
  for (const auto& one : swap.answering) {
    Json object;
    object["part"] = swap.stage->at(one.part).name;
    object["reading"] = swap.stage->at(one.reading).name;
    object["value"] = one.value;
    object["by_10mV_less"] = number_or_null(one.by_lower_volts);
    object["by_half_gain"] = number_or_null(one.by_half_gain);
    object["by_double_gain"] = number_or_null(one.by_double_gain);
    list.push_back(std::move(object));
  }
  return list;
}

void add_sides(Json& object, const Swap& swap) {
  object["before"] = json_readings_of(swap.before);
  object["after"] = json_readings_of(swap.after);
  object["cold_before"] = json_cold_readings_of(swap.before);
  object["cold_after"] = json_cold_readings_of(swap.after);
  const auto* old_preset = answers::preset_of(swap.before);
  const auto* new_preset = answers::preset_of(swap.after);
  object["preset_before"] = old_preset == nullptr ? Json::array() : json_adjustments(*old_preset);
  object["preset_after"] = new_preset == nullptr ? Json::array() : json_adjustments(*new_preset);
  if (const auto* story = std::get_if<answers::ThermalStory>(&swap.after.preset)) {
    object["runaway"] = json_runaway(*story);
  }
}

}  // namespace

std::string json_of(const Swap& swap) {
  const Readings& before = *answers::readings_of(swap.before);
  Json object = json_opening("swap", *before.stage);
  object["conditions"] = json_conditions(*before.stage, before.state.conditions(), before.changes);
  object["swaps"] = Json::array();
  for (const auto& swapped : swap.swaps) object["swaps"].push_back(json_swapped(swap, swapped));
  object["verdict"] = word(swap.verdict);
  object["reasons"] = Json::array();
  for (const auto& reason : reasons_of(swap))
    object["reasons"].push_back(reason.topic + ": " + reason.text);
  add_sides(object, swap);
  object["cures"] = json_cures(swap);
  object["ratings"] = Json::array();
  for (const auto& check : swap.ratings) {
    object["ratings"].push_back(json_rating(*swap.stage, check));
  }
  object["base_current_before_A"] = json_drive(swap, swap.drive_before);
  object["base_current_after_A"] = json_drive(swap, swap.drive_after);
  object["sharing_A"] = json_sharing(swap);
  object["answering"] = json_answering(swap);
  object["thermal_margin_before"] = json_margin(swap.loop_gain_before);
  object["thermal_margin_after"] = json_margin(swap.loop_gain_after);
  object["warnings"] = swap.warnings;
  return printed(object);
}

}  // namespace idlepoint::report
