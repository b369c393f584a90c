// Which trimmer to set first.
//
// Used by the preset answer. Source: docs/commands.md, "order".
#pragma once

#include <cstddef>
#include <vector>

#include "circuit/checked_circuit.hpp"
#include "solve/operating_point.hpp"

namespace idlepoint::answers {

/// disturbs[i][j]: moving trimmer i moves the reading of j by more than j's `within`. Square, one
/// row and one column an adjustment; the diagonal is never looked at.
using Disturbances = std::vector<std::vector<bool>>;

/// Moves each trimmer 10 % of travel from where it stands in `stage`, towards the middle (towards
/// the second end where it stands in the middle), the others fixed. Where that has no DC state, the
/// trimmer disturbs every reading.
[[nodiscard]] Disturbances find_disturbances(const circuit::CheckedCircuit& stage,
                                             const solve::OperatingPoint& at_preset);

struct TrimmerOrder {
  std::vector<std::size_t> first_to_last;  ///< Indices of adjustments.
  bool goes_round_twice = false;           ///< Some pair disturbs each other.
};

/// If only one of a pair disturbs the other it comes first; otherwise the file's order stands, also
/// where three or more go round in a circle.
[[nodiscard]] TrimmerOrder order_trimmers(const Disturbances& disturbs);

}  // namespace idlepoint::answers
