// The answer of `poweroff` as JSON. Keys and meaning: docs/commands.md.
#pragma once

#include <string>

#include "answers/poweroff.hpp"
#include "report/json_pieces.hpp"

namespace idlepoint::report {

[[nodiscard]] std::string json_of(const answers::PowerOff& answer);

/// A list, an entry a pair of legs: between which points, and the ohms both ways round.
[[nodiscard]] Json json_legs(const circuit::Circuit& circuit,
                             const std::vector<answers::LegsInCircuit>& legs);

}  // namespace idlepoint::report
