// The strategy of a solve: what is tried, in which order, and what is accepted.
//
// Newton from the warm or the cold start; then conductance, rails and pseudo-transient
// continuation. Accepted is only a state inside every law's range, whose balances, computed afresh,
// are below 0.5 pA + 1e-9 of the largest current at the node, and which is stable. Used by
// solve/stage_solver.
#pragma once

#include <variant>

#include "solve/assembly.hpp"
#include "solve/not_settled.hpp"
#include "solve/operating_point.hpp"

namespace idlepoint::solve {

/// A settled state, before it becomes an OperatingPoint.
struct Solution {
  State state;
  SolverReport report;
  bool has_other_states = false;  ///< An unstable balance was met and left.
};

using Found = std::variant<Solution, NotSettled>;

/// On success `work` holds the assembled solution.
[[nodiscard]] Found find_state(const System& system,
                               const Numbers& numbers,
                               Work& work,
                               const State* start = nullptr);

}  // namespace idlepoint::solve
