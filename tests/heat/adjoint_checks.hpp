// The adjoint held against central differences of full solves, by every number of a stage.
#pragma once

#include "heat/moved_stage.hpp"

namespace idlepoint::tests {

/// Every reading and position by every parameter.
void check_parameters(const MovedStage& stage);

/// By the room, by a kelvin on each heat sink's resistance, by each mounting.
void check_heat(const MovedStage& stage);

}  // namespace idlepoint::tests
