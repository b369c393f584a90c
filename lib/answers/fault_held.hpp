// Whether the output is held although a fault drives it, and by whom.
//
// The last step of a chain of cause (answers/fault_chain).
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "answers/fault_chain.hpp"
#include "answers/fault_graph.hpp"

namespace idlepoint::answers {

/// By the loop, where the way from a fault to a part that feeds the output leads over the output
/// itself, and its current steps against the output's move; else by balance, where at least twice
/// the current and 5 mA flow through it. None where the output moved by more than 0.25 V, or a
/// fault ties it. `steps`: the chain so far.
[[nodiscard]] std::optional<ChainStep> find_held(const Moves& moves,
                                                 const Causes& causes,
                                                 const std::vector<std::size_t>& sources,
                                                 const std::vector<ChainStep>& steps);

}  // namespace idlepoint::answers
