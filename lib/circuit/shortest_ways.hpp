// How far it is from one vertex of a graph of arrows to every other.
//
// Used by the chain of cause, whose arrows lead from causes to effects. Source: [Dijkstra1959].
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

namespace idlepoint::circuit {

struct Arrow {
  std::size_t from;
  std::size_t to;
  double cost;  ///< Not negative.
};

/// By vertex: the least sum of costs of a way along the arrows; none where no way leads.
[[nodiscard]] std::vector<std::optional<double>> distances_from(std::size_t start,
                                                                std::size_t vertex_count,
                                                                const std::vector<Arrow>& arrows);

}  // namespace idlepoint::circuit
