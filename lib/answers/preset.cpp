#include "answers/preset.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "answers/crossover.hpp"
#include "answers/preset_without.hpp"
#include "answers/readings.hpp"
#include "answers/set_trimmers.hpp"
#include "answers/trimmer_order.hpp"

namespace idlepoint::answers {
namespace {

using PresetOrStory = std::variant<Preset, solve::NotSettled, ThermalStory>;

std::optional<ThermalStory> story_at(const Setup& setup, const circuit::CheckedCircuit& stage) {
  const auto outcome = solve::solve_stage(stage, setup.conditions);
  const auto* trouble = std::get_if<solve::ThermalTrouble>(&outcome);
  if (trouble == nullptr) return std::nullopt;
  auto story = tell_thermal(setup, stage, *trouble);
  story.at_preset = true;
  return story;
}

// No position was found: told of the place where the cold target would have the trimmers, or else
// of the one where the file has them.
ThermalStory story_without_a_preset(const Setup& setup, const solve::ThermalTrouble& trouble) {
  solve::Conditions cold = setup.conditions;
  cold.heat = solve::HeatState::cold;
  const auto solved = solve::solve_adjustments(
      setup.stage, cold, solve::SafeEnds(setup.stage->adjustments.size(), std::nullopt));
  if (const auto* adjusted = std::get_if<solve::Adjusted>(&solved)) {
    if (auto story = story_at(setup, adjusted->circuit)) return std::move(*story);
  }
  return tell_thermal(setup, setup.stage, trouble);
}

// A target that no position reaches although the track goes on: what the next position meets.
std::optional<ThermalStory> story_beyond(const Setup& setup, const solve::Adjusted& adjusted) {
  constexpr double one_position = 1.0 / 40.0;  // of the search along the track
  constexpr double at_an_end = 1e-6;
  for (const auto& setting : adjusted.settings) {
    if (setting.reached || !setting.at_end) continue;
    for (const double end : {0.0, 1.0}) {
      if (std::abs(end - setting.travel) < at_an_end) continue;
      const double step = std::clamp(end - setting.travel, -one_position, one_position);
      const auto beyond = adjusted.circuit.edited([&](circuit::Circuit& circuit) {
        std::get<circuit::TrimmerDetails>(circuit.at(setting.trimmer).details).travel += step;
      });
      if (auto story = story_at(setup, beyond)) return story;
    }
  }
  return std::nullopt;
}

TrimmerAnswer answer_for(const circuit::Circuit& circuit,
                         const circuit::Adjustment& adjustment,
                         const solve::Setting& setting,
                         TrimmerStates states) {
  TrimmerAnswer answer;
  answer.trimmer = setting.trimmer;
  answer.reading = setting.reading;
  answer.unit = unit_of(circuit.at(setting.reading).probe);
  answer.target = in_own_unit(adjustment.target, answer.unit);
  answer.within = adjustment.within;
  answer.value = in_own_unit(setting.reading_value, answer.unit);
  answer.reached = setting.reached;
  answer.at_end = setting.at_end;
  // The solver stops a hair before an end whose stretch of track has no resistance at all.
  answer.travel = setting.at_end ? std::round(setting.travel) : setting.travel;
  answer.slope_per_travel = setting.slope_per_travel;
  answer.other_travels = setting.other_travels;
  answer.ohms = ohms_at(circuit.at(setting.trimmer), answer.travel);
  answer.states = std::move(states);
  return answer;
}

std::vector<std::string> preset_warnings(const Setup& setup,
                                         const solve::OperatingPoint& state,
                                         const std::optional<ColdMoment>& cold) {
  auto warnings = standing_warnings(setup);
  for (const auto& rail : setup.stage->rails) {
    if (!rail.measured_v || *rail.measured_v / rail.nominal_v >= lowest_rails_for_a_preset)
      continue;
    warnings.push_back(fmt::format(
        "`{}` was measured at {:.3g} V, {:.0f} % of its nominal {:.3g} V. If that was on a lamp or "
        "a turned-down transformer, this preset can be far too high at full rails.",
        setup.stage->at(rail.node).name,
        *rail.measured_v,
        100.0 * *rail.measured_v / rail.nominal_v,
        rail.nominal_v));
  }
  for (auto& text : warnings_of_both(*setup.stage, state, cold)) {
    warnings.push_back(std::move(text));
  }
  return warnings;
}

// Readings with the trimmers set on paper; positions at which the readings would then be right.
void add_bands_at(Preset& preset, const solve::Conditions& conditions) {
  std::vector<circuit::Probe> probes;
  for (const auto& reading : preset.readings) probes.push_back(reading.probe);
  std::vector<circuit::Adjustment> following;
  for (std::size_t index = 0; index < preset.adjustments.size(); ++index) {
    if (!preset.adjustments[index].at_end) {
      following.push_back(preset.stage->adjustments.at(index));
    }
  }
  const Bands bands = find_bands(preset.stage, conditions, probes, following);
  add_bands(bands, preset.readings);
  std::size_t next = 0;
  for (auto& answer : preset.adjustments) {
    if (!answer.at_end) answer.travel_band = bands.positions.at(next++);
  }
}

void add_cold_moment(Preset& preset, solve::OperatingPoint cold) {
  for (auto& answer : preset.adjustments) {
    const auto& probe = preset.stage->at(answer.reading).probe;
    answer.cold_value = in_own_unit(cold.read(*preset.stage, probe), answer.unit);
  }
  auto readings = read_all(preset.stage, cold);
  add_bands(preset.stage, cold.conditions(), readings);
  preset.cold = ColdMoment{std::move(cold), std::move(readings)};
}

Preset assemble(const Setup& setup, SetTrimmers set) {
  auto& adjusted = set.adjusted;
  Preset preset{adjusted.circuit};
  preset.changes = setup.changes;
  const auto& circuit = *preset.stage;
  for (std::size_t index = 0; index < circuit.adjustments.size(); ++index) {
    preset.adjustments.push_back(answer_for(circuit,
                                            circuit.adjustments[index],
                                            adjusted.settings[index],
                                            std::move(set.states[index])));
  }
  for (auto& answer : preset.adjustments) {
    answer.in_circuit =
        trimmer_in_circuit(preset.stage, answer.trimmer, answer.states.safe_end, setup.conditions);
  }
  const auto order = order_trimmers(find_disturbances(preset.stage, set.cold));
  preset.order = order.first_to_last;
  preset.goes_round_twice = order.goes_round_twice;
  preset.readings = read_all(preset.stage, adjusted.state);
  add_bands_at(preset, setup.conditions);
  if (setup.conditions.heat == solve::HeatState::warm) {
    add_cold_moment(preset, std::move(set.cold));
    preset.thermal = find_thermal_margin(preset.stage, adjusted.state);
  }
  preset.warnings = preset_warnings(setup, adjusted.state, preset.cold);
  preset.state = std::move(adjusted.state);
  return preset;
}

Preset refuse(const Setup& setup, std::string reason) {
  Preset refusal{setup.stage};
  refusal.refused = std::move(reason);
  refusal.changes = setup.changes;
  refusal.warnings = standing_warnings(setup);
  return refusal;
}

// The stage with the one `adjust` that it lacks.
Setup with_aim(const Setup& setup, const Crossover& crossover) {
  const auto& chosen = crossover.settings[crossover.aim->setting];
  Setup whole = setup;
  whole.stage = crossover.stage.edited([&](circuit::Circuit& circuit) {
    constexpr double usual_share = 0.01;
    constexpr double usual_least = 1e-3;
    auto& adjustment = circuit.adjustments[crossover.adjustment];
    adjustment.target = chosen.reading;
    adjustment.within = std::max(usual_share * std::abs(chosen.reading), usual_least);
  });
  return whole;
}

// Nothing is asked for in the file: what to aim for comes from the crossover.
PresetOrStory ask_preset_for_aim(const Setup& setup) {
  auto outcome = ask_crossover(setup, CrossoverDepth::aim_alone);
  if (auto* story = std::get_if<solve::NotSettled>(&outcome)) return std::move(*story);
  const auto& crossover = std::get<Crossover>(outcome);
  if (!crossover.aim) {
    return refuse(setup,
                  *why_no_preset(setup) + " Nor is there anything to aim for: " +
                      crossover.refused.value_or("no standing current stays cool."));
  }
  auto answer = ask_preset(with_aim(setup, crossover));
  auto* preset = std::get_if<Preset>(&answer);
  if (preset == nullptr || preset->refused) return answer;
  const auto unit = preset->adjustments.at(crossover.adjustment).unit;
  const auto& chosen = crossover.settings[crossover.aim->setting];
  const auto& flattest = crossover.settings[crossover.flattest];
  preset->aim = PresetAim{in_own_unit(chosen.reading, unit),
                          chosen.curve.ripple(),
                          crossover.aim->why == CrossoverAim::Why::flattest,
                          crossover.aim->why == CrossoverAim::Why::published,
                          in_own_unit(flattest.reading, unit),
                          flattest.curve.ripple()};
  return answer;
}

}  // namespace

bool is_good(const Preset& preset) noexcept {
  const bool all_reached = std::all_of(preset.adjustments.begin(),
                                       preset.adjustments.end(),
                                       [](const auto& answer) { return answer.reached; });
  return !preset.refused && all_reached && !any_limit_broken(preset.readings);
}

PresetOrStory ask_preset(const Setup& setup) {
  const bool can_be_asked = !why_no_preset(setup);
  if (can_be_asked) {
    const auto of_whole = set_with_all_parts(setup.stage, setup.conditions);
    if (std::find(of_whole.begin(), of_whole.end(), true) != of_whole.end()) {
      return ask_preset_without(setup, of_whole);
    }
  }
  if (auto reason = why_no_preset(setup)) {
    const bool is_silent = setup.stage->adjustments.empty() && !are_rails_too_low(setup);
    return is_silent ? ask_preset_for_aim(setup) : refuse(setup, std::move(*reason));
  }
  auto set = set_trimmers(setup);
  if (auto* story = std::get_if<solve::NotSettled>(&set)) return std::move(*story);
  if (const auto* trouble = std::get_if<solve::ThermalTrouble>(&set)) {
    return story_without_a_preset(setup, *trouble);
  }
  if (auto story = story_beyond(setup, std::get<SetTrimmers>(set).adjusted))
    return std::move(*story);
  return assemble(setup, std::get<SetTrimmers>(std::move(set)));
}

}  // namespace idlepoint::answers
