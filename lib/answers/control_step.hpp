// How many volts a junction needs at one current: the old type and the new one side by side.
//
// Used by the `swap` answer: of all that a data sheet says, this is what moves the standing
// current.
#pragma once

#include <optional>

#include "circuit/edits.hpp"
#include "solve/operating_point.hpp"

namespace idlepoint::answers {

/// Base-emitter, gate-source or diode volts at one and the same current, old and new.
struct ControlStep {
  double before_v = 0.0;
  double after_v = 0.0;
  /// Half the width of the step's band at 95 %, from the spreads of both types (of saturation
  /// current or threshold); none without any.
  std::optional<double> half_width_v = {};
};

/// At the current and the temperature of the part in `state`, that of `stage`. None where it
/// carries nothing, or is driven hard on.
[[nodiscard]] std::optional<ControlStep> find_control_step(const circuit::CheckedCircuit& stage,
                                                           const solve::OperatingPoint& state,
                                                           const circuit::SetType& asked);

}  // namespace idlepoint::answers
