// Whether two part types read alike in a stage at DC, production being what it is.
//
// Used by the list of suspects: a part replaced by a type like its own is no fault that a meter
// finds.
#pragma once

#include "circuit/part_type.hpp"

namespace idlepoint::answers {

/// Junction volts within 8 mV and gain (a FET: current factor) within a third of each other; the
/// same kind of part.
[[nodiscard]] bool reads_like(const circuit::PartType& one, const circuit::PartType& other);

}  // namespace idlepoint::answers
