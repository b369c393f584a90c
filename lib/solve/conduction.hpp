// Which region each diode and transistor works in.
//
// Source: docs/models.md, "Conduction".
#pragma once

#include <optional>
#include <vector>

#include "circuit/circuit.hpp"
#include "solve/assembly.hpp"
#include "solve/operating_point.hpp"

namespace idlepoint::solve {

struct Region {
  std::optional<Conduction> conduction;  ///< None for parts without one.
  bool is_broken_down = false;           ///< Emitter-base junction, backwards.
};

/// [parts]; a part taken out or shorted is off.
[[nodiscard]] std::vector<Region> find_regions(const circuit::Circuit& circuit,
                                               const System& system,
                                               const Numbers& numbers,
                                               const State& state,
                                               const Work& work);

}  // namespace idlepoint::solve
