// Spreads of part types that give none: without any, a fault would be seen where two healthy
// transistors differ.
//
// Used by the diagnosis and its blind trials. Source of the widths: docs/commands.md, "diagnose".
#pragma once

#include <string>
#include <vector>

#include "circuit/checked_circuit.hpp"

namespace idlepoint::answers {

inline constexpr double assumed_gain_times = 1.4;
inline constexpr double assumed_saturation_times = 1.3;

struct AssumedSpreads {
  circuit::CheckedCircuit stage;
  std::vector<std::string> assumed;  ///< "gain of driver-npn, 1.4 times either way", one a field.
};

/// Gain times or over 1.4 and saturation current times or over 1.3 where a type of the stage gives
/// no limits; told of types that a part of the stage has.
[[nodiscard]] AssumedSpreads with_assumed_spreads(const circuit::CheckedCircuit& stage);

}  // namespace idlepoint::answers
