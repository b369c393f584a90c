#include "report/json_powerup.hpp"

#include "report/json_pieces.hpp"
#include "report/powerup_words.hpp"

namespace idlepoint::report {
namespace {

using answers::Powerup;
using answers::PowerupStep;
using answers::SwitchOff;
using answers::SwitchOffLimit;

Json number_of(const std::optional<answers::AtStep>& at_step, std::size_t reading) {
  if (!at_step) return nullptr;
  return at_step->readings[reading].value;
}

void add_band_of(Json& object,
                 const std::string& key,
                 const std::optional<answers::AtStep>& at_step,
                 std::size_t reading) {
  const auto band = at_step ? at_step->readings[reading].band : std::nullopt;
  object[key + "_low"] = low_or_null(band);
  object[key + "_high"] = high_or_null(band);
  object[key + "_text"] = reading_in_words(at_step, reading);
}

Json json_limit(const Powerup& answer,
                std::size_t step,
                answers::ReadingUnit unit,
                const std::optional<SwitchOffLimit>& limit) {
  if (!limit) return nullptr;
  Json object;
  object["limit"] = limit->limit;
  object["sound"] = limit->sound;
  object["nearest"] = limit->nearest;
  object["faults"] = Json::array();
  for (const std::size_t fault : limit->faults) {
    object["faults"].push_back(answer.faults[fault].fault);
  }
  object["text"] = limit_in_words(limit->limit, unit);
  object["behind"] = behind_limit(answer, step, *limit);
  return object;
}

Json limit_or_null(const std::optional<SwitchOffLimit>& limit) {
  return limit ? Json(limit->limit) : Json(nullptr);
}

void add_limits_of(Json& object, const Powerup& answer, std::size_t index, std::size_t reading) {
  const auto& step = answer.steps[index];
  const auto unit = step.safe_end->readings[reading].unit;
  const SwitchOff& usual = step.switch_off[reading];
  const SwitchOff& tight = step.switch_off_at_safe_end[reading];
  object["switch_off_above"] = limit_or_null(usual.above);
  object["switch_off_below"] = limit_or_null(usual.below);
  object["above"] = json_limit(answer, index, unit, usual.above);
  object["below"] = json_limit(answer, index, unit, usual.below);
  object["while_at_safe_end"] = {{"switch_off_above", limit_or_null(tight.above)},
                                 {"switch_off_below", limit_or_null(tight.below)},
                                 {"above", json_limit(answer, index, unit, tight.above)},
                                 {"below", json_limit(answer, index, unit, tight.below)}};
}

Json json_step_readings(const Powerup& answer, std::size_t index) {
  const auto& step = answer.steps[index];
  Json list = Json::array();
  const auto& readings = answer.places.at_safe_end->readings;
  for (std::size_t k = 0; k < readings.size(); ++k) {
    Json object;
    object["name"] = readings[k].name;
    object["unit"] = answers::symbol(answers::unit_of(readings[k].probe));
    object["at_safe_end"] = number_of(step.safe_end, k);
    add_band_of(object, "at_safe_end", step.safe_end, k);
    object["at_preset"] = number_of(step.preset, k);
    add_band_of(object, "at_preset", step.preset, k);
    if (step.safe_end) {
      add_limits_of(object, answer, index, k);
    } else {
      object["switch_off_above"] = nullptr;
      object["switch_off_below"] = nullptr;
    }
    list.push_back(std::move(object));
  }
  return list;
}

Json json_rail_currents(const Powerup& answer, const PowerupStep& step) {
  const auto& circuit = *answer.places.at_safe_end;
  Json object = Json::object();
  for (std::size_t index = 0; index < circuit.rails.size(); ++index) {
    const circuit::RailId id{index};
    const auto amps_of = [&](const std::optional<answers::AtStep>& at_step) {
      return at_step ? Json(at_step->state.rail(id).delivered_a) : Json(nullptr);
    };
    object[circuit.at(circuit.rails[index].node).name] = {
        {"source_V", circuit::source_v(circuit.rails[index]) * step.rails},
        {"at_safe_end_A", amps_of(step.safe_end)},
        {"at_preset_A", amps_of(step.preset)}};
  }
  return object;
}

Json output_v_of(const Powerup& answer, const std::optional<answers::AtStep>& at_step) {
  const auto output = circuit::output_node(*answer.places.at_safe_end);
  if (!output || !at_step) return nullptr;
  return at_step->state.voltage_v(*output);
}

Json watts_of(const std::optional<answers::AtStep>& at_step) {
  return at_step ? Json(at_step->state.total_power_w()) : Json(nullptr);
}

Json json_step(const Powerup& answer, std::size_t index) {
  const auto& step = answer.steps[index];
  Json object;
  object["rails"] = step.rails;
  object["text"] = step_in_words(answer, step);
  object["tells"] = what_it_tells(answer, step);
  object["remark"] = why_it_looks_so(answer, step);
  object["output_at_safe_end_V"] = output_v_of(answer, step.safe_end);
  object["output_at_preset_V"] = output_v_of(answer, step.preset);
  object["output_at_a_rail"] = step.tells.output == answers::OutputPlace::at_low_rail ||
                               step.tells.output == answers::OutputPlace::at_high_rail;
  object["may_set"] = step.tells.may_set;
  object["asleep"] = Json::array();
  for (const auto part : step.tells.asleep) {
    object["asleep"].push_back(answer.places.at_safe_end->at(part).name);
  }
  object["rail_currents"] = json_rail_currents(answer, step);
  object["total_power_at_safe_end_W"] = watts_of(step.safe_end);
  object["total_power_at_preset_W"] = watts_of(step.preset);
  object["readings"] = json_step_readings(answer, index);
  return object;
}

Json json_trimmers(const Powerup& answer) {
  const auto& circuit = *answer.places.at_safe_end;
  Json list = Json::array();
  for (const std::size_t index : answer.places.order) {
    const auto& place = answer.places.trimmers[index];
    list.push_back({{"trimmer", circuit.at(place.adjustment.trimmer).name},
                    {"reading", circuit.at(place.adjustment.reading).name},
                    {"safe_place", answers::word(place.safe)},
                    {"safe_position", place.safe_travel},
                    {"position", place.preset_travel},
                    {"reached", place.reached},
                    {"needs_all_parts", place.needs_all_parts}});
  }
  return list;
}

Json json_behind(const Powerup& answer) {
  Json list = Json::array();
  const auto& readings = answer.places.at_safe_end->readings;
  for (std::size_t k = 0; k < readings.size(); ++k) {
    for (const bool is_above : {true, false}) {
      const std::string text = behind_limits(answer, k, is_above);
      if (text.empty()) continue;
      list.push_back(
          {{"reading", readings[k].name}, {"side", is_above ? "above" : "below"}, {"text", text}});
    }
  }
  return list;
}

Json json_set_too_low(const Powerup& answer) {
  const auto& circuit = *answer.places.at_preset;
  Json list = Json::array();
  for (const auto& set : answer.set_too_low) {
    const auto& adjustment = answer.places.trimmers[set.trimmer].adjustment;
    const auto unit = answers::unit_of(circuit.at(adjustment.reading).probe);
    list.push_back({{"trimmer", circuit.at(adjustment.trimmer).name},
                    {"reading", circuit.at(adjustment.reading).name},
                    {"unit", answers::symbol(unit)},
                    {"rails", set.rails},
                    {"target", answers::in_own_unit(adjustment.target, unit)},
                    {"reached", set.reached},
                    {"position", set.travel},
                    {"reads", set.reading},
                    {"at_full_rails", number_or_null(set.at_full_rails)},
                    {"text", set_too_low_in_words(answer, set)}});
  }
  return list;
}

Json json_shows(const Powerup& answer, const answers::LampShows& shows) {
  const auto& state = shows.state;
  Json object;
  object["fault"] = shows.fault ? Json(answer.faults[*shows.fault].fault) : Json(nullptr);
  object["trimmers"] = shows.at_preset ? "preset" : "safe end";
  object["rails"] = state.rails;
  object["lamp_V"] = state.lamp_v;
  object["lamp_A"] = state.lamp_a;
  object["share_of_current"] = state.share_of_current;
  object["share_of_volts"] = state.share_of_volts;
  object["brightness"] = answers::word(state.glow);
  object["stage_W"] = state.stage_w;
  object["mains_W"] = state.mains_w;
  object["text"] = lamp_in_words(*answer.lamp, shows);
  return object;
}

Json json_lamp(const Powerup& answer) {
  if (!answer.lamp) return nullptr;
  const auto& lamp = *answer.lamp;
  Json object;
  object["rated_W"] = lamp.lamp.rated_w;
  object["mains_V"] = lamp.lamp.mains_v;
  object["mains_assumed"] = lamp.lamp.mains_assumed;
  object["dull_from"] = answers::dull_from;
  object["bright_from"] = answers::bright_from;
  object["sound"] = Json::array();
  for (const auto& shows : lamp.sound) object["sound"].push_back(json_shows(answer, shows));
  object["hard_on"] = Json::array();
  for (const auto& shows : lamp.hard_on) object["hard_on"].push_back(json_shows(answer, shows));
  object["remarks"] = lamp_remarks(answer);
  return object;
}

}  // namespace

std::string json_of(const Powerup& answer) {
  const auto& circuit = *answer.places.at_safe_end;
  Json object = json_opening("powerup", circuit);
  object["conditions"] = json_conditions(circuit, answer.full.conditions(), answer.changes);
  if (answer.no_preset) object["no_preset"] = *answer.no_preset;
  object["cautions"] = powerup_cautions(answer);
  object["safe_end"] = safe_places_in_words(answer);
  object["preset"] = presets_in_words(answer);
  object["trimmers"] = json_trimmers(answer);
  object["steps"] = Json::array();
  for (std::size_t index = 0; index < answer.steps.size(); ++index) {
    object["steps"].push_back(json_step(answer, index));
  }
  object["on_the_way"] = on_the_way(answer);
  object["switch_off"] = json_behind(answer);
  object["tighter"] = tighter_limits(answer);
  object["wrong_if_set"] = json_set_too_low(answer);
  object["lamp"] = json_lamp(answer);
  if (!answer.lamp) object["hint"] = lamp_hint();
  object["warnings"] = answer.warnings;
  return printed(object);
}

}  // namespace idlepoint::report
