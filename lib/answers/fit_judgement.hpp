// Whether points fit together, and whether any part of their kind could show them.
//
// Used by answers/fit.
#pragma once

#include "answers/fit.hpp"

namespace idlepoint::answers {

/// Points at one condition that differ beyond what they are known to; forward voltages that fall as
/// the current rises; windows that the fitted type breaks; values that it misses by more than three
/// times what they are known to. Each names its points by line and column.
[[nodiscard]] complaints::Complaints contradictions_of(const circuit::TypePoints& asked,
                                                       const TypeFit& fit);

}  // namespace idlepoint::answers
