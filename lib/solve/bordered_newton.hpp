// Newton's method with trimmer travels as further unknowns.
//
// Each wanted reading adds one equation, reading = target, and each trimmer one unknown, its
// travel: the bordered system is solved by blocks, one back-substitution a trimmer on the factors
// of the stage's own slopes and a small dense system for the travels. Used by solve/adjust.
#pragma once

#include <span>
#include <vector>

#include "circuit/circuit.hpp"
#include "solve/ideal_currents.hpp"
#include "solve/stage_solver.hpp"

namespace idlepoint::solve {

/// One trimmer and what it is to reach.
struct Wanted {
  std::size_t track;  ///< Among `system().wiring.tracks`.
  circuit::Probe probe;
  double target = 0.0;  ///< SI.
};

struct BorderedResult {
  bool settled = false;
  int steps = 0;
};

/// Steps state and travels together from where they are. `travels` [wanted] stay within the track;
/// a solution past an end does not settle. On success the solver's numbers hold the travels.
[[nodiscard]] BorderedResult iterate_with_travels(const circuit::Circuit& circuit,
                                                  StageSolver& solver,
                                                  const IdealCurrents& ideals,
                                                  std::span<const Wanted> wanted,
                                                  State& state,
                                                  std::span<double> travels);

/// [wanted] d(reading)/d(its own trimmer's travel) with the other trimmers fixed, at the assembled
/// state.
[[nodiscard]] std::vector<double> slopes_by_travel(const circuit::Circuit& circuit,
                                                   StageSolver& solver,
                                                   const IdealCurrents& ideals,
                                                   std::span<const Wanted> wanted);

/// Travel is kept this far from a track's end where the end itself would be 0 ohm.
[[nodiscard]] double nearest_travel(const circuit::Part& trimmer, double travel) noexcept;

}  // namespace idlepoint::solve
