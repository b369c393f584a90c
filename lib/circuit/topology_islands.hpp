// What nothing holds at DC: legs on their own, and islands of points that conduct only to each
// other.
//
// Found here, put into words by topology_untied.cpp.
#pragma once

#include <optional>
#include <vector>

#include "circuit/topology_graph.hpp"

namespace idlepoint::circuit {

/// A leg that meets nothing, and the point it may have been meant for.
struct LoneLeg {
  NodeId node;
  LeadAt at;
  std::optional<NodeId> meant;
};

/// Nodes joined to each other and to nothing that holds them.
struct Island {
  std::size_t group = 0;  ///< Its number in Wiring::conducting_group.
  std::vector<NodeId> nodes;
  std::vector<LeadAt> bases;  ///< Bases and gates.
  std::vector<LeadAt> feeds;
  bool has_capacitor = false;
};

/// A base or a gate.
[[nodiscard]] bool is_base(const Circuit& circuit, LeadAt at);

/// In the order of their nodes. Names are guessed only while the legs are few enough for slips.
[[nodiscard]] std::vector<LoneLeg> lone_legs(const Circuit& circuit, const Wiring& wiring);

/// In the order of their first nodes. What only capacitors reach is held by the board's own
/// insulation and is no island.
[[nodiscard]] std::vector<Island> islands(const Circuit& circuit, const Wiring& wiring);

}  // namespace idlepoint::circuit
