// The question "what does this stage do at DC?", from a checked circuit to an operating point.
//
// The front door of the solver for answers and tests. For many solves of one circuit, compile once
// (solve/stage_solver.hpp).
#pragma once

#include <variant>

#include "circuit/checked_circuit.hpp"
#include "solve/conditions.hpp"
#include "solve/not_settled.hpp"
#include "solve/operating_point.hpp"
#include "solve/thermal_trouble.hpp"

namespace idlepoint::solve {

using Outcome = std::variant<OperatingPoint, NotSettled>;

/// The cold state: every junction at ambient, the moment after switch-on. Never needs a guess.
[[nodiscard]] Outcome solve_cold(const circuit::CheckedCircuit& circuit,
                                 const Conditions& conditions = {});

using WarmOutcome = std::variant<OperatingPoint, NotSettled, ThermalTrouble>;

/// The cold or the warm state, as `conditions.heat` says. Thermal trouble only when warm; a state
/// whose loop gain is 1 or more is never returned.
[[nodiscard]] WarmOutcome solve_stage(const circuit::CheckedCircuit& circuit,
                                      const Conditions& conditions);

}  // namespace idlepoint::solve
