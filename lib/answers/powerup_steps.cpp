#include "answers/powerup_steps.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "answers/at_rail.hpp"
#include "solve/solve_stage.hpp"

namespace idlepoint::answers {
namespace {

constexpr double step_rounding = 1e-9;

std::optional<AtStep> with_bands(const circuit::CheckedCircuit& stage,
                                 const solve::Conditions& conditions) {
  auto found = look_at_step(stage, conditions);
  if (found) add_bands(stage, conditions, found->readings);
  return found;
}

std::optional<bool> output_belongs(const Powerup& answer, const solve::OperatingPoint& at_step) {
  constexpr double near_enough = 0.05;
  const auto& circuit = *answer.places.at_safe_end;
  const auto output = circuit::output_node(circuit);
  const auto rails = outermost_rails(circuit, at_step.conditions());
  if (!output || rails.high_v <= rails.low_v) return std::nullopt;
  const double share = at_step.conditions().rails / answer.full.conditions().rails;
  const double off_v =
      std::abs(at_step.voltage_v(*output) - share * answer.full.voltage_v(*output));
  return off_v <= near_enough * (rails.high_v - rails.low_v);
}

bool sets_idle(const TrimmerPlace& place) {
  return place.safe == SafePlace::end_a || place.safe == SafePlace::end_b;
}

std::optional<bool> idle_stands(const Powerup& answer, const PowerupStep& step) {
  if (!step.preset || !answer.full_preset) return std::nullopt;
  const auto& circuit = *answer.places.at_preset;
  std::optional<bool> stands;
  for (const auto& place : answer.places.trimmers) {
    if (!sets_idle(place) || place.needs_all_parts) continue;
    const auto& probe = circuit.at(place.adjustment.reading).probe;
    const double off = std::abs(step.preset->state.read(circuit, probe) -
                                answer.full_preset->state.read(circuit, probe));
    stands = stands.value_or(true) && off <= place.adjustment.within;
  }
  return stands;
}

std::vector<circuit::PartId> asleep(const Powerup& answer, const solve::OperatingPoint& at_step) {
  const auto& circuit = *answer.places.at_safe_end;
  std::vector<circuit::PartId> parts;
  for (std::size_t index = 0; index < circuit.parts.size(); ++index) {
    const circuit::PartId id{index};
    if (!circuit::is_transistor(circuit.parts[index].kind)) continue;
    const bool wakes = answer.full.part(id).conduction != solve::Conduction::off;
    if (wakes && at_step.part(id).conduction == solve::Conduction::off) parts.push_back(id);
  }
  return parts;
}

}  // namespace

bool may_set_at(double rails) noexcept {
  return rails >= lowest_rails_for_a_preset - step_rounding;
}

std::optional<AtStep> look_at_step(const circuit::CheckedCircuit& stage,
                                   const solve::Conditions& conditions) {
  auto outcome = solve::solve_cold(stage, conditions);
  auto* state = std::get_if<solve::OperatingPoint>(&outcome);
  if (state == nullptr) return std::nullopt;
  auto readings = read_all(stage, *state);
  return AtStep{std::move(*state), std::move(readings)};
}

PowerupStep take_step(const Powerup& answer, const solve::Conditions& conditions) {
  PowerupStep step;
  step.rails = conditions.rails;
  step.safe_end = with_bands(answer.places.at_safe_end, conditions);
  if (!answer.no_preset) step.preset = with_bands(answer.places.at_preset, conditions);
  return step;
}

void tell_what_steps_prove(Powerup& answer) {
  bool has_hold = false;
  for (auto& step : answer.steps) {
    auto& tells = step.tells;
    tells.may_set = may_set_at(step.rails);
    tells.idle_stands = idle_stands(answer, step);
    if (!step.safe_end) continue;
    const auto& state = step.safe_end->state;
    tells.output = output_place(*answer.places.at_safe_end, state);
    tells.output_belongs = output_belongs(answer, state);
    tells.takes_hold = tells.output_belongs == true && !has_hold;
    has_hold = has_hold || tells.output_belongs == true;
    tells.asleep = asleep(answer, state);
  }
}

}  // namespace idlepoint::answers
