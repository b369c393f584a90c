// Into which heat sinks the extra watts of loud music go.
//
// Used by the warmup answer. Source: docs/commands.md, "warmup".
#pragma once

#include <optional>
#include <vector>

#include "circuit/checked_circuit.hpp"
#include "solve/operating_point.hpp"

namespace idlepoint::answers {

/// [heat sinks] shares of one extra watt, none negative, sum 1. An ideal current is drawn from the
/// output one way, then the other, of the size that costs `extra_w` between output and outermost
/// rail; each sink's share is what its parts take up beyond `cold`. Where that shows nothing (no
/// output, no solution): in proportion to the watts at rest. None where no sink takes any.
[[nodiscard]] std::optional<std::vector<double>> soak_shares(const circuit::CheckedCircuit& stage,
                                                             const solve::OperatingPoint& cold,
                                                             double extra_w);

}  // namespace idlepoint::answers
