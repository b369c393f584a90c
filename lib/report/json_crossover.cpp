#include "report/json_crossover.hpp"

#include "report/crossover_words.hpp"
#include "report/json_pieces.hpp"
#include "report/json_thermal.hpp"
#include "values/constants.hpp"

namespace idlepoint::report {
namespace {

using answers::Crossover;
using answers::IdleSetting;

Json json_sinks(const IdleSetting& setting) {
  Json object = Json::object();
  for (std::size_t index = 0; index < setting.stage->heatsinks.size(); ++index) {
    const auto& found = setting.state.heatsink(circuit::HeatsinkId{index});
    object[setting.stage->heatsinks[index].name] = {
        {"temperature_C", values::celsius_from_kelvin(found.temperature_k)},
        {"power_W", found.power_w}};
  }
  return object;
}

void add_setting(Json& object, const Crossover& answer, std::size_t index) {
  const auto& setting = answer.settings[index];
  const auto unit = answers::unit_of(
      answer.stage->at(answer.stage->adjustments[answer.adjustment].reading).probe);
  const bool is_warm = answer.conditions.heat == solve::HeatState::warm;
  object["reading"] = answers::in_own_unit(setting.reading, unit);
  object["position"] = setting.travel;
  object["gain_ripple_percent"] = 100.0 * setting.curve.ripple();
  object["gain_at_rest"] = setting.curve.at_rest();
  object["gain_smallest"] = setting.curve.smallest();
  object["gain_largest"] = setting.curve.largest();
  object["shape"] = shape_in_words(setting);
  object["total_power_W"] = setting.state.total_power_w();
  object["heatsinks"] = json_sinks(setting);
  object["thermal_loop_gain"] = is_warm ? Json(setting.state.loop_gain()) : Json(nullptr);
  object["thermal_margin"] = is_warm ? Json(1.0 - setting.state.loop_gain()) : Json(nullptr);
  object["stable"] = true;  // a state that is not is no setting: the list ends before it
  object["cool"] = answers::is_cool(setting);
  object["marks"] = marks_in_words(answer, index);
}

Json json_setting(const Crossover& answer, std::size_t index) {
  Json object;
  add_setting(object, answer, index);
  return object;
}

Json json_published(const Crossover& answer) {
  Json object;
  object["applies"] = answer.published.has_value();
  if (!answer.published) {
    object["why_not"] = answer.why_not_published;
    return object;
  }
  object["reading"] = answer.published->reading_v;
  object["gain_ripple_percent"] =
      answer.at_published ? Json(100.0 * answer.settings[*answer.at_published].curve.ripple())
                          : Json(nullptr);
  object["resistors"] = Json::array();
  for (const auto& one : answer.published->resistors) {
    object["resistors"].push_back({{"resistor", answer.stage->at(one.resistor).name},
                                   {"transistor", answer.stage->at(one.transistor).name},
                                   {"thermal_V", one.thermal_v},
                                   {"resistor_ohm", one.resistor_ohm},
                                   {"inside_ohm", one.inside_ohm},
                                   {"across_V", one.across_v},
                                   {"standing_current_A", one.standing_a}});
  }
  return object;
}

Json json_adjusted(const Crossover& answer) {
  const auto& circuit = *answer.stage;
  const auto& adjustment = circuit.adjustments[answer.adjustment];
  const auto& reading = circuit.at(adjustment.reading);
  const auto unit = answers::unit_of(reading.probe);
  Json object;
  object["trimmer"] = circuit.at(adjustment.trimmer).name;
  object["reading"] = reading.name;
  object["reads"] = circuit::write_probe(circuit, reading.probe);
  object["unit"] = answers::symbol(unit);
  object["in_the_file"] = answer.is_makers;
  object["target"] =
      answer.is_makers ? Json(answers::in_own_unit(adjustment.target, unit)) : Json(nullptr);
  return object;
}

Json json_best(const Crossover& answer) {
  Json object = json_setting(answer, answer.flattest);
  object["reading_low"] = low_or_null(answer.flattest_band);
  object["reading_high"] = high_or_null(answer.flattest_band);
  return object;
}

const char* why_in_a_word(answers::CrossoverAim::Why why) {
  switch (why) {
    case answers::CrossoverAim::Why::flattest:
      return "flattest";
    case answers::CrossoverAim::Why::published:
      return "published";
    default:
      return "cool";
  }
}

Json json_aim(const Crossover& answer) {
  if (!answer.aim) return nullptr;
  Json object = json_setting(answer, answer.aim->setting);
  object["is_flattest"] = answer.aim->why == answers::CrossoverAim::Why::flattest;
  object["why"] = why_in_a_word(answer.aim->why);
  object["makers_figure"] = false;
  object["text"] = aim_in_words(answer);
  return object;
}

Json json_curves(const Crossover& answer) {
  Json list = Json::array();
  for (const auto& setting : answer.settings) {
    list.push_back({{"reading", setting.reading},
                    {"drive_V", setting.curve.drive_v},
                    {"output_V", setting.curve.output_v},
                    {"incremental_gain", setting.curve.gain}});
  }
  return list;
}

void add_answer(Json& object, const Crossover& answer) {
  const auto& circuit = *answer.stage;
  object["adjusted"] = json_adjusted(answer);
  object["drive"] = circuit.at(*circuit.signal.drive).name;
  object["output"] = circuit.at(*circuit::output_node(circuit)).name;
  object["swing_V"] = answer.swing_v;
  object["load_ohm"] = answer.load_ohm;
  object["idle"] = Json::array();
  for (std::size_t index = 0; index < answer.settings.size(); ++index) {
    object["idle"].push_back(json_setting(answer, index));
  }
  object["best"] = json_best(answer);
  object["published"] = json_published(answer);
  object["makers"] = answer.at_makers ? json_setting(answer, *answer.at_makers) : Json(nullptr);
  object["aim"] = json_aim(answer);
  if (answer.thermal) add_thermal(object, circuit, *answer.thermal);
  object["texts"] = all_in_words(answer);
  object["curves"] = json_curves(answer);
}

}  // namespace

std::string json_of(const Crossover& answer) {
  Json object = json_opening("crossover", *answer.stage);
  object["conditions"] = json_conditions(*answer.stage, answer.conditions, answer.changes);
  if (answer.refused) {
    object["refused"] = *answer.refused;
    object["idle"] = Json::array();
    object["best"] = nullptr;
    object["curves"] = Json::array();
  } else {
    add_answer(object, answer);
  }
  object["warnings"] = answer.warnings;
  return printed(object);
}

}  // namespace idlepoint::report
