// What a lane reads: a probe taken apart into points, terminal currents and temperatures.
//
// Used by solve/make_lane_plan alone.
#pragma once

#include "solve/heat_model.hpp"
#include "solve/lane_plan.hpp"

namespace idlepoint::solve {

/// `system` in its electrical rows; heated parts and sinks numbered as in `heat`.
[[nodiscard]] LaneProbe lane_probe(const circuit::Circuit& circuit,
                                   const System& system,
                                   const HeatModel& heat,
                                   const circuit::Probe& probe);

}  // namespace idlepoint::solve
