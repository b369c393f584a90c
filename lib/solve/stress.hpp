// Whether a part is asked for more than its ratings.
#pragma once

#include "circuit/circuit.hpp"
#include "solve/operating_point.hpp"

namespace idlepoint::solve {

/// The operating point must hold every part's currents, power and temperature.
[[nodiscard]] bool exceeds_rating(const circuit::Circuit& circuit,
                                  circuit::PartId id,
                                  const OperatingPoint& point);

}  // namespace idlepoint::solve
