// A circuit written back as text that reads to the same circuit.
#pragma once

#include <string>

#include "circuit/circuit.hpp"

namespace idlepoint::language {

/// One file, types included, statements in the order of the circuit's lists, every value to the
/// last bit. Requires an undamaged circuit (no faults applied): damage has no text.
[[nodiscard]] std::string write_stage(const circuit::Circuit& circuit);

}  // namespace idlepoint::language
