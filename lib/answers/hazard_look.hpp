// One faulty stage beside the sound one: does the fault turn it hard on, put its output at a rail,
// or load a part beyond its rating?
//
// Used by the hazards answer at full rails, by the power-up answer at every step of the rails.
// Source of the rules: docs/commands.md, "hazards".
#pragma once

#include <optional>
#include <vector>

#include "answers/hazards.hpp"
#include "circuit/checked_circuit.hpp"
#include "solve/operating_point.hpp"

namespace idlepoint::answers {

struct FaultyState {
  std::optional<HazardEffect> effect = {};          ///< None: harmless.
  std::optional<solve::OperatingPoint> state = {};  ///< None: no DC state, which is hard on.
  std::vector<circuit::PartId> parts_at_risk = {};  ///< Beyond a rating here, not in the sound one.
};

/// `faulty` is `stage` with one edit made; `sound` the state of `stage`, whose conditions are
/// taken. Cost: one solve.
[[nodiscard]] FaultyState look_at_fault(const circuit::CheckedCircuit& faulty,
                                        const circuit::CheckedCircuit& stage,
                                        const solve::OperatingPoint& sound);

}  // namespace idlepoint::answers
