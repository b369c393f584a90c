// The unit of a part's VALUE.
//
// Used by faults (`R12 is 2k2`), by the writer and by the sheet's list of parts.
#pragma once

#include "circuit/part_kind.hpp"
#include "values/unit.hpp"

namespace idlepoint::circuit {

/// Ohms of a resistor, amperes of a fuse; ohms where a kind has no VALUE.
[[nodiscard]] values::Unit unit_of_value(PartKind kind);

}  // namespace idlepoint::circuit
