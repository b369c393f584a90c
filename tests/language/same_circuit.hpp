// Are two circuits the same drawing? Every field but the places in the text.
#pragma once

#include <string>

#include "circuit/circuit.hpp"

namespace idlepoint::language {

/// Everything that a circuit holds, bit for bit, as one text: written from its fields one by one,
/// without the writer under test.
[[nodiscard]] std::string dump(const circuit::Circuit& circuit);

}  // namespace idlepoint::language
