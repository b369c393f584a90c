// Where the signal leaves the stage, when the file does not say so.
//
// The loudspeaker hangs on the output itself, or behind an output capacitor. The two are told apart
// by what stands close by: at the output of a stage a transistor is reached through no more than an
// emitter resistor, an inductor, a fuse or a link; on the loudspeaker's side of a capacitor none
// is.
#include <algorithm>
#include <vector>

#include "circuit/circuit.hpp"

namespace idlepoint::circuit {
namespace {

/// Emitter resistors, damping resistors beside the output inductor: larger ones set currents.
constexpr double close_by_ohm = 10.0;

bool is_close_by(const Part& part) {
  switch (part.kind) {
    case PartKind::resistor:
      return part.value <= close_by_ohm;
    case PartKind::inductor:
    case PartKind::fuse:
    case PartKind::link:
      return true;
    default:
      return false;
  }
}

bool is_fixed(const Circuit& circuit, NodeId node) {
  return node == ground || find_rail(circuit, node).has_value();
}

/// The nodes that low resistances join to `start`, never through ground or a rail.
std::vector<bool> close_to(const Circuit& circuit, NodeId start) {
  std::vector<bool> reached(circuit.nodes.size(), false);
  std::vector<NodeId> to_visit;
  const auto visit = [&](NodeId node) {
    if (reached[node.index] || is_fixed(circuit, node)) return;
    reached[node.index] = true;
    to_visit.push_back(node);
  };
  visit(start);
  while (!to_visit.empty()) {
    const NodeId here = to_visit.back();
    to_visit.pop_back();
    for (const Part& part : circuit.parts) {
      if (!is_close_by(part) || !lead(part, 0) || !lead(part, 1)) continue;
      if (*lead(part, 0) == here) visit(*lead(part, 1));
      if (*lead(part, 1) == here) visit(*lead(part, 0));
    }
  }
  return reached;
}

/// A collector, emitter, drain or source among the nodes.
bool has_transistor(const Circuit& circuit, const std::vector<bool>& nodes) {
  return std::ranges::any_of(circuit.parts, [&](const Part& part) {
    if (!is_transistor(part.kind)) return false;
    const auto first = lead(part, 0);
    const auto third = lead(part, 2);
    return (first && nodes[first->index]) || (third && nodes[third->index]);
  });
}

/// The end of a capacitor that lies outside `nodes`, where the other end lies inside.
std::optional<NodeId> far_end(const Part& part, const std::vector<bool>& nodes) {
  const auto a = lead(part, 0);
  const auto b = lead(part, 1);
  if (part.kind != PartKind::capacitor || !a || !b) return std::nullopt;
  if (nodes[a->index] == nodes[b->index]) return std::nullopt;
  return nodes[a->index] ? b : a;
}

}  // namespace

std::optional<NodeId> output_node(const Circuit& circuit) {
  if (circuit.signal.output) return circuit.signal.output;
  const auto load = std::ranges::find(circuit.parts, PartKind::load, &Part::kind);
  if (load == circuit.parts.end()) return std::nullopt;
  const auto named_first = lead(*load, 0);
  const auto speaker = named_first == ground ? lead(*load, 1) : named_first;
  if (!speaker || is_fixed(circuit, *speaker)) return speaker;

  const std::vector<bool> beside_speaker = close_to(circuit, *speaker);
  if (has_transistor(circuit, beside_speaker)) return speaker;
  std::optional<NodeId> output = speaker;
  double largest_f = -1.0;
  for (const Part& part : circuit.parts) {
    const auto beyond = far_end(part, beside_speaker);
    if (!beyond || part.value <= largest_f || is_fixed(circuit, *beyond)) continue;
    if (!has_transistor(circuit, close_to(circuit, *beyond))) continue;
    output = beyond;
    largest_f = part.value;
  }
  return output;
}

}  // namespace idlepoint::circuit
