// Who moved whom: the nearest cause of every node and part that a fault moved.
//
// Used by the chain of cause. Parts and nodes are one graph with an arrow wherever the numbers
// allow a cause: from a part to a node where the current that the part feeds in stepped the way the
// node moved (Kirchhoff's current law), from a node to a part where the node's move has the sense
// of the part's change. No name, no topology and no order enters.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "answers/fault_moves.hpp"
#include "circuit/edits.hpp"

namespace idlepoint::answers {

/// Nodes and parts of the faulty circuit, nodes first.
class Vertices {
 public:
  explicit Vertices(const circuit::Circuit& circuit)
      : nodes_(circuit.nodes.size()), parts_(circuit.parts.size()) {}

  [[nodiscard]] std::size_t of(circuit::NodeId node) const noexcept { return node.index; }
  [[nodiscard]] std::size_t of(circuit::PartId part) const noexcept { return nodes_ + part.index; }
  [[nodiscard]] bool is_node(std::size_t vertex) const noexcept { return vertex < nodes_; }
  [[nodiscard]] circuit::NodeId node(std::size_t vertex) const noexcept { return {vertex}; }
  [[nodiscard]] circuit::PartId part(std::size_t vertex) const noexcept {
    return {vertex - nodes_};
  }
  [[nodiscard]] std::size_t count() const noexcept { return nodes_ + parts_; }

 private:
  std::size_t nodes_;
  std::size_t parts_;
};

/// By vertex.
struct Causes {
  /// How far from the fault, in steps, a weak cause counting up to four; none: not moved, or by
  /// nothing that leads back to the fault.
  std::vector<std::optional<double>> distance;
  /// The nearest causes: several only where they count alike, as parallel transistors do.
  std::vector<std::vector<std::size_t>> of;
  /// Reached only by neighbourhood: the numbers name no cause.
  std::vector<bool> is_unexplained;
};

/// What the edit was done to: the part, the bridge's own part, or the rail's node.
[[nodiscard]] std::size_t vertex_of(const circuit::Edit& edit,
                                    const Moves& moves,
                                    std::size_t bridges_before);

/// Where a way begins: a fault, and what it costs to begin there.
struct Start {
  std::size_t vertex;
  double cost;
};

[[nodiscard]] Causes find_causes(const Moves& moves, const std::vector<Start>& starts);

/// `gnd`, the rails and what hangs on them by a fuse or a link: they carry no effect, unless they
/// moved by more than a tenth of the largest rail.
[[nodiscard]] std::vector<bool> standing_nodes(const Moves& moves);

}  // namespace idlepoint::answers
