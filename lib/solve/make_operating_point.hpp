// From a settled state to the numbers that answers read.
#pragma once

#include "circuit/circuit.hpp"
#include "solve/operating_point.hpp"
#include "solve/stage_solver.hpp"

namespace idlepoint::solve {

/// `solver` has just found `solution` for `circuit` under `conditions`, and its work arrays still
/// hold it.
[[nodiscard]] OperatingPoint make_operating_point(const circuit::Circuit& circuit,
                                                  const Conditions& conditions,
                                                  StageSolver& solver,
                                                  const Solution& solution);

}  // namespace idlepoint::solve
