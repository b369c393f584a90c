// From a settled state to the numbers that answers read.
#pragma once

#include "circuit/circuit.hpp"
#include "solve/operating_point.hpp"
#include "solve/state_finder.hpp"

namespace idlepoint::solve {

/// `finder` has just found `rest` for `circuit` under `conditions`, and its work arrays still hold
/// it.
[[nodiscard]] OperatingPoint make_operating_point(const circuit::Circuit& circuit,
                                                  const Conditions& conditions,
                                                  StateFinder& finder,
                                                  const Rest& rest);

}  // namespace idlepoint::solve
