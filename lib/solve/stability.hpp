// Whether a balance is one the stage would stay in.
//
// The sign of the determinant of the slopes, against its sign with every device at rest, differs
// where an odd number of modes grow, whatever the capacitances: docs/models.md, "More than one DC
// state". Used by solve/find_state.
#pragma once

#include <vector>

#include "solve/assembly.hpp"

namespace idlepoint::solve {

/// `work` holds the assembled state; its factors are overwritten.
[[nodiscard]] bool is_stable(const System& system,
                             const Numbers& numbers,
                             const State& state,
                             Work& work);

/// The growing direction of an unstable balance, largest entry 0.1 V, and how fast it grows as a
/// conductance (a rate times a unit capacitance): the least one that, at every point to ground,
/// would make the balance a stable one. By inverse iteration there; `work` keeps its slopes.
struct GrowingMode {
  std::vector<double> direction_v;  ///< [unknowns]
  double rate_s = 0.0;
};
[[nodiscard]] GrowingMode growing_mode(const System& system, Work& work);

}  // namespace idlepoint::solve
