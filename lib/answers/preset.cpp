#include "answers/preset.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "answers/readings.hpp"
#include "answers/trimmer_order.hpp"
#include "solve/adjust.hpp"

namespace idlepoint::answers {
namespace {

using SolvedPreset = std::variant<solve::Adjusted, solve::NotSettled>;

// 95 % written as a decimal fraction need not be the nearest double to 0.95.
constexpr double rounding = 1e-9;

std::optional<std::string> reason_to_refuse(const Setup& setup) {
  if (setup.conditions.rails < lowest_rails_for_a_preset - rounding) {
    return fmt::format(
        "With the rails at {:.0f} % no preset is given. The current through the bias parts "
        "usually falls with the rails, so that a trimmer set for the wanted reading there can "
        "stand "
        "far too high when the full volts arrive. Set it at 95 % of the rails or more.",
        setup.conditions.rails * 100.0);
  }
  if (setup.stage->adjustments.empty()) {
    return "The file has no `adjust` statement, so there is nothing to set.";
  }
  for (const auto& adjustment : setup.stage->adjustments) {
    const auto& trimmer = setup.stage->at(adjustment.trimmer);
    if (trimmer.damage.absent) return fmt::format("{} is taken out.", trimmer.name);
    if (trimmer.damage.wiper_open) return fmt::format("The wiper of {} is lifted.", trimmer.name);
  }
  return std::nullopt;
}

std::vector<TrimmerStates> all_trimmer_states(const solve::Adjusted& adjusted) {
  std::vector<TrimmerStates> states;
  for (const auto& adjustment : adjusted.circuit->adjustments) {
    states.push_back(find_trimmer_states(adjusted.circuit, adjusted.state, adjustment));
  }
  return states;
}

solve::SafeEnds safe_ends_of(const std::vector<TrimmerStates>& states) {
  solve::SafeEnds ends;
  for (const auto& state : states) ends.push_back(state.safe_end);
  return ends;
}

// Coming from the second end the first position met may be another than the one found from the
// first end; where the target has one position only, the two are the same.
bool must_solve_from_safe_ends(const solve::Adjusted& adjusted, const solve::SafeEnds& ends) {
  for (std::size_t index = 0; index < ends.size(); ++index) {
    if (ends[index] == circuit::TrackEnd::b && !adjusted.settings[index].other_travels.empty()) {
      return true;
    }
  }
  return false;
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

std::vector<std::string> preset_warnings(const Setup& setup, const solve::Adjusted& adjusted) {
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
  for (auto& text : state_warnings(*adjusted.circuit, adjusted.state)) {
    warnings.push_back(std::move(text));
  }
  return warnings;
}

Preset assemble(const Setup& setup, solve::Adjusted adjusted, std::vector<TrimmerStates> states) {
  Preset preset{adjusted.circuit};
  preset.changes = setup.changes;
  preset.warnings = preset_warnings(setup, adjusted);
  const auto& circuit = *preset.stage;
  for (std::size_t index = 0; index < circuit.adjustments.size(); ++index) {
    preset.adjustments.push_back(answer_for(
        circuit, circuit.adjustments[index], adjusted.settings[index], std::move(states[index])));
  }
  const auto order = order_trimmers(find_disturbances(preset.stage, adjusted.state));
  preset.order = order.first_to_last;
  preset.goes_round_twice = order.goes_round_twice;
  preset.readings = read_all(preset.stage, adjusted.state);
  preset.state = std::move(adjusted.state);
  return preset;
}

}  // namespace

bool is_good(const Preset& preset) noexcept {
  const bool all_reached = std::all_of(preset.adjustments.begin(),
                                       preset.adjustments.end(),
                                       [](const auto& answer) { return answer.reached; });
  return !preset.refused && all_reached && !any_limit_broken(preset.readings);
}

std::variant<Preset, solve::NotSettled> ask_preset(const Setup& setup) {
  if (auto reason = reason_to_refuse(setup)) {
    Preset refusal{setup.stage};
    refusal.refused = std::move(reason);
    refusal.changes = setup.changes;
    refusal.warnings = standing_warnings(setup);
    return refusal;
  }
  const std::size_t count = setup.stage->adjustments.size();
  auto solved =
      solve::solve_adjustments(setup.stage, setup.conditions, solve::SafeEnds(count, std::nullopt));
  if (auto* story = std::get_if<solve::NotSettled>(&solved)) return std::move(*story);

  auto states = all_trimmer_states(std::get<solve::Adjusted>(solved));
  const auto ends = safe_ends_of(states);
  if (must_solve_from_safe_ends(std::get<solve::Adjusted>(solved), ends)) {
    solved = solve::solve_adjustments(setup.stage, setup.conditions, ends);
    if (auto* story = std::get_if<solve::NotSettled>(&solved)) return std::move(*story);
    states = all_trimmer_states(std::get<solve::Adjusted>(solved));
  }
  return assemble(setup, std::get<solve::Adjusted>(std::move(solved)), std::move(states));
}

}  // namespace idlepoint::answers
