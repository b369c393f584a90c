// What is tried where plain Newton stalls: three ladders from an easy problem to the stage itself.
//
// Conductance: every point is shunted to ground, and the shunt taken away by degrees. Rails: the
// sources are raised from nothing. Pseudo-transient: every point is given a capacitance and the
// stage is followed in time [KelleyKeyes1998]. Each has a cap on its total Newton steps, so none
// can loop for ever. Used by solve/stage_solver.
#pragma once

#include <string>

#include "solve/newton.hpp"
#include "solve/not_settled.hpp"

namespace idlepoint::solve {

struct LadderResult {
  bool settled = false;
  Attempt attempt;  ///< Name, Newton steps, and where it stopped.
};

/// Newton alone, from `state` as it is.
[[nodiscard]] LadderResult plain_newton(const System& system,
                                        const Numbers& numbers,
                                        State& state,
                                        Work& work);

/// Each starts from `cold_start` and leaves its result in `state`.
[[nodiscard]] LadderResult lower_shunt(const System& system,
                                       const Numbers& numbers,
                                       State& state,
                                       Work& work);
[[nodiscard]] LadderResult raise_rails(const System& system,
                                       const Numbers& numbers,
                                       State& state,
                                       Work& work);

/// Starts from `state` as it is. `first_inertia_s`: capacitance over the first time step.
[[nodiscard]] LadderResult follow_in_time(
    const System& system, const Numbers& numbers, double first_inertia_s, State& state, Work& work);

}  // namespace idlepoint::solve
