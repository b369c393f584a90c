// The unit of a part's VALUE.
//
// Used by faults (`R12 is 2k2`) and by the writer.
#pragma once

#include "circuit/part_kind.hpp"
#include "values/unit.hpp"

namespace idlepoint::language {

/// Ohms of a resistor, amperes of a fuse; ohms where a kind has no VALUE.
[[nodiscard]] values::Unit unit_of_value(circuit::PartKind kind);

}  // namespace idlepoint::language
