// A stage that finds no rest as it warms up, or finds it too hot.
//
// Source: docs/models.md, "Heat".
#pragma once

#include <optional>

#include "circuit/ids.hpp"

namespace idlepoint::solve {

struct ThermalTrouble {
  enum class Kind {
    runaway,  ///< The path from ambient meets no equilibrium below 400 C.
    too_hot,  ///< It meets one above a part's maximum junction temperature.
  };
  Kind kind = Kind::runaway;
  circuit::PartId part;                         ///< The first whose junction passes its maximum.
  std::optional<circuit::HeatsinkId> heatsink;  ///< It sits on; none in free air.
  double heatsink_k = 0.0;  ///< Where the limit is passed (runaway) or at rest (too hot);
                            ///< ambient for a part in free air.
  double junction_k = 0.0;
  double loop_gain = 0.0;
};

}  // namespace idlepoint::solve
