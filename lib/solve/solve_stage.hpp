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

namespace idlepoint::solve {

using Outcome = std::variant<OperatingPoint, NotSettled>;

/// The cold state: every junction at ambient, the moment after switch-on. Never needs a guess.
[[nodiscard]] Outcome solve_cold(const circuit::CheckedCircuit& circuit,
                                 const Conditions& conditions = {});

}  // namespace idlepoint::solve
