// A chain of cause made short enough to read: what says the same is merged, what is small between
// two larger steps is named in passing.
//
// Used by answers/fault_chain alone.
#pragma once

#include <algorithm>
#include <cstddef>
#include <vector>

#include "answers/fault_chain.hpp"

namespace idlepoint::answers {

struct DraftStep {
  ChainStep step;
  std::size_t vertex = 0;               ///< Of answers/fault_graph: whose step it is.
  double size = 0.0;                    ///< Small ones are folded away first.
  bool is_needed = false;               ///< A fault, an end, a part that changed its region.
  std::vector<std::size_t> because_of;  ///< Vertices of other drafts.
};

[[nodiscard]] inline bool has_vertex(const std::vector<std::size_t>& list, std::size_t vertex) {
  return std::find(list.begin(), list.end(), vertex) != list.end();
}

/// In the same order, with `because_of` as indices of the result. Every step left out is folded
/// into the step that followed from it, so each is still reached from the fault.
[[nodiscard]] std::vector<ChainStep> shortened(std::vector<DraftStep> drafts);

}  // namespace idlepoint::answers
