// A stage with its own meter across two points.
//
// Used for what a meter shows, and for the band of that.
#pragma once

#include <optional>

#include "circuit/checked_circuit.hpp"

namespace idlepoint::answers {

/// The stage with its meter's input resistance across the points of `probe`; none for a probe that
/// is not in volts, and none between a point and itself, where a meter loads nothing.
[[nodiscard]] std::optional<circuit::CheckedCircuit> with_meter(
    const circuit::CheckedCircuit& stage, const circuit::Probe& probe);

}  // namespace idlepoint::answers
