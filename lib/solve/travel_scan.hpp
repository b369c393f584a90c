// One trimmer turned from end to end, the others fixed: where its reading meets the target.
//
// Bracketing for solve/adjust: sure where Newton is quick. Warm-started from position to position.
#pragma once

#include <optional>
#include <vector>

#include "solve/state_finder.hpp"

namespace idlepoint::solve {

struct ScanResult {
  std::vector<double> crossings;    ///< Travels at which the reading is on target, ascending.
  double nearest_end_travel = 0.0;  ///< The end, or the last position with a state before it,
                                    ///< whose reading comes nearer the target.
  bool any_solved = false;          ///< False where no position has a DC state.
};

/// Leaves the solver's travel of this track anywhere.
[[nodiscard]] ScanResult scan_travel(const circuit::Circuit& circuit,
                                     StateFinder& finder,
                                     const Wanted& wanted);

}  // namespace idlepoint::solve
