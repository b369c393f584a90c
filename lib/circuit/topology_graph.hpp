// The graph of a drawing: who meets whom, what conducts, what stands close to a supply.
//
// Built once by check_topology and read by every check; plain lists, so that the graph library
// stays in topology_graph.cpp.
#pragma once

#include <optional>
#include <vector>

#include "circuit/circuit.hpp"

namespace idlepoint::circuit {

struct LeadAt {
  PartId part;
  std::size_t lead;
};

/// A point whose voltage the file states: ground, a rail, a point held against ground.
struct Supply {
  NodeId node;
  double volts = 0.0;
  std::optional<RailId> rail;
};

/// Every list but `supplies` has one entry a node.
struct Wiring {
  std::vector<std::vector<LeadAt>> leads_at;
  std::vector<bool> has_rail;
  /// Nodes of one number are joined by parts that conduct: anything but a capacitor, a feed, a
  /// gate, a base.
  std::vector<std::size_t> conducting_group;
  /// Nodes of one number are joined by wires, fuses, inductors and resistors of at most 10 ohms.
  std::vector<std::size_t> close_group;
  std::vector<Supply> supplies;  ///< First ground.
  /// By close group: index of its only supply; none where it holds no supply, or several.
  std::vector<std::optional<std::size_t>> supply_of_group;
  std::optional<NodeId> output;
};

[[nodiscard]] Wiring trace_wiring(const Circuit& circuit);

/// The supply that a lead meets directly or through a few ohms.
[[nodiscard]] const Supply* supply_near(const Wiring& wiring, std::optional<NodeId> node);

/// True where both exist and a few ohms at most lie between them.
[[nodiscard]] bool is_close(const Wiring& wiring,
                            std::optional<NodeId> one,
                            std::optional<NodeId> other);

/// One branch of a graph over the nodes of a circuit.
struct Branch {
  NodeId a;
  NodeId b;
};

/// The branches, as indices, of a shortest way between two nodes; empty where there is none.
[[nodiscard]] std::vector<std::size_t> way_between(std::size_t node_count,
                                                   const std::vector<Branch>& branches,
                                                   NodeId from,
                                                   NodeId to);

/// By node: the number of the part of the graph that it belongs to.
[[nodiscard]] std::vector<std::size_t> joined_groups(std::size_t node_count,
                                                     const std::vector<Branch>& branches);

/// The branches, as indices, that close a loop with those before them.
[[nodiscard]] std::vector<std::size_t> loop_closers(std::size_t node_count,
                                                    const std::vector<Branch>& branches);

}  // namespace idlepoint::circuit
