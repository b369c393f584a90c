#include "answers/hazard_look.hpp"

#include <utility>

#include "answers/at_rail.hpp"
#include "solve/solve_stage.hpp"

namespace idlepoint::answers {
namespace {

std::vector<circuit::PartId> newly_over_stressed(const circuit::Circuit& circuit,
                                                 const solve::OperatingPoint& state,
                                                 const solve::OperatingPoint& sound,
                                                 std::size_t sound_parts) {
  std::vector<circuit::PartId> parts;
  for (std::size_t index = 0; index < circuit.parts.size(); ++index) {
    const circuit::PartId id{index};
    if (!state.part(id).over_stressed) continue;
    const bool was_before = index < sound_parts && sound.part(id).over_stressed;
    if (!was_before) parts.push_back(id);
  }
  return parts;
}

}  // namespace

FaultyState look_at_fault(const circuit::CheckedCircuit& faulty,
                          const circuit::CheckedCircuit& stage,
                          const solve::OperatingPoint& sound) {
  FaultyState looked;
  auto outcome = solve::solve_cold(faulty, sound.conditions());
  auto* state = std::get_if<solve::OperatingPoint>(&outcome);
  if (state == nullptr) {
    looked.effect = HazardEffect::hard_on;
    return looked;
  }
  looked.parts_at_risk = newly_over_stressed(*faulty, *state, sound, stage->parts.size());
  if (state->total_power_w() > hard_on_power * sound.total_power_w()) {
    looked.effect = HazardEffect::hard_on;
  } else if (is_output_at_rail(*faulty, *state)) {
    looked.effect = HazardEffect::output_at_rail;
  } else if (!looked.parts_at_risk.empty()) {
    looked.effect = HazardEffect::over_stressed;
  }
  looked.state = std::move(*state);
  return looked;
}

}  // namespace idlepoint::answers
