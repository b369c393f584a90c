// The one sparse matrix of a lane: its pattern, its order, and the slot of every stamp.
//
// Used by solve/make_lane_plan alone.
#pragma once

#include "solve/lane_plan.hpp"

namespace idlepoint::solve {

/// Fills `elimination` and every slot of a plan whose rows, heated poles, probes and travels are
/// numbered.
void lay_out_matrix(LanePlan& plan);

}  // namespace idlepoint::solve
