// Whether a stage's output has gone to a rail.
//
// Used where a lifted wiper or another single fault is judged a hazard.
// Source: docs/commands.md, "preset".
#pragma once

#include "circuit/circuit.hpp"
#include "solve/operating_point.hpp"

namespace idlepoint::answers {

/// The two outermost nominal rails, scaled by the conditions' `rails`; `gnd` counts as one.
struct OutermostRails {
  double low_v = 0.0;
  double high_v = 0.0;
};

[[nodiscard]] OutermostRails outermost_rails(const circuit::Circuit& circuit,
                                             const solve::Conditions& conditions) noexcept;

enum class OutputPlace { between, at_low_rail, at_high_rail, unknown };

/// At a rail: within 10 % of the distance between the outermost rails from either, or beyond it.
/// Unknown where the stage has no output.
[[nodiscard]] OutputPlace output_place(const circuit::Circuit& circuit,
                                       const solve::OperatingPoint& state);

[[nodiscard]] bool is_output_at_rail(const circuit::Circuit& circuit,
                                     const solve::OperatingPoint& state);

}  // namespace idlepoint::answers
