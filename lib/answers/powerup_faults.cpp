#include "answers/powerup_faults.hpp"

#include <algorithm>
#include <cmath>
#include <tuple>
#include <utility>
#include <variant>

#include "answers/hazard_look.hpp"

namespace idlepoint::answers {
namespace {

using circuit::CheckedCircuit;

struct PartEdited {
  std::optional<circuit::PartId> operator()(const circuit::Bridge&) const { return std::nullopt; }
  std::optional<circuit::PartId> operator()(const circuit::LoseRail&) const { return std::nullopt; }
  std::optional<circuit::PartId> operator()(const auto& edit) const { return edit.part; }
};

FaultAtStep show_at_step(const CheckedCircuit& faulty,
                         const CheckedCircuit& stage,
                         const solve::OperatingPoint& sound) {
  const FaultyState looked = look_at_fault(faulty, stage, sound);
  FaultAtStep shown;
  shown.finds_state = looked.state.has_value();
  shown.effect = looked.effect;
  if (!looked.state) return shown;
  shown.output = output_place(*faulty, *looked.state);
  shown.total_power_w = looked.state->total_power_w();
  for (const auto& reading : stage->readings) {
    shown.readings.push_back(
        in_own_unit(looked.state->read(*faulty, reading.probe), unit_of(reading.probe)));
  }
  return shown;
}

std::optional<PowerupFault> critical_at_full(const CheckedCircuit& at_preset,
                                             const solve::OperatingPoint& sound,
                                             const circuit::Edit& edit) {
  const auto applied = circuit::apply(at_preset, edit);
  const auto* faulty = std::get_if<CheckedCircuit>(&applied);
  if (faulty == nullptr) return std::nullopt;
  const FaultyState looked = look_at_fault(*faulty, at_preset, sound);
  if (!looked.effect) return std::nullopt;
  PowerupFault fault{edit,
                     circuit::write_fault(*at_preset, edit),
                     std::visit(PartEdited{}, edit),
                     *looked.effect,
                     std::nullopt};
  if (looked.state) fault.total_power_w = looked.state->total_power_w();
  return fault;
}

}  // namespace

std::vector<PowerupFault> find_powerup_faults(
    const CheckedCircuit& at_preset,
    const solve::OperatingPoint& sound_at_preset,
    const CheckedCircuit& at_safe_end,
    const std::vector<const solve::OperatingPoint*>& sound) {
  std::vector<PowerupFault> faults;
  for (const auto& edit : faults_to_try(*at_preset)) {
    auto fault = critical_at_full(at_preset, sound_at_preset, edit);
    if (!fault) continue;
    const auto applied = circuit::apply(at_safe_end, edit);
    const auto* faulty = std::get_if<CheckedCircuit>(&applied);
    for (const auto* state : sound) {
      fault->steps.push_back(state != nullptr && faulty != nullptr
                                 ? show_at_step(*faulty, at_safe_end, *state)
                                 : FaultAtStep{});
    }
    faults.push_back(std::move(*fault));
  }
  const auto rank = [](const PowerupFault& fault) {
    return std::tuple(fault.effect, -fault.total_power_w.value_or(HUGE_VAL));
  };
  std::stable_sort(faults.begin(), faults.end(), [&](const auto& one, const auto& other) {
    return rank(one) < rank(other);
  });
  return faults;
}

}  // namespace idlepoint::answers
