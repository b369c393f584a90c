#include "answers/fault_graph.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "circuit/shortest_ways.hpp"

namespace idlepoint::answers {
namespace {

using circuit::Arrow;
using circuit::Circuit;
using circuit::NodeId;
using circuit::Part;
using circuit::PartId;
using circuit::PartKind;

// Below these nothing moved. Far under what any meter shows: a loop works with less than that.
constexpr double least_move_v = 1e-7;
constexpr double least_step_a = 1e-11;
// A rail that gives way by more than this share of the largest rail is no longer one.
constexpr double rail_that_gives_way = 0.1;
// What a cause costs that stands for a vanishing share of the move, over one that is all of it.
constexpr double cost_of_a_weak_cause = 3.0;
constexpr double cost_of_a_collector = 1.0;  // a bottomed transistor passes its collector's move on
constexpr double cost_of_a_stiff_part = 1.5;  // both ends move as one, whatever the current
// Less than this share of a move is no cause of it.
constexpr double least_share = 0.15;
// Neighbours, where the numbers name nothing: more than any way that they name.
constexpr double cost_of_no_cause = 500.0;
constexpr double alike = 1e-3;  // steps of distance

bool agrees(double one, double other) { return (one > 0.0) == (other > 0.0); }

class Arrows {
 public:
  explicit Arrows(const Moves& moves)
      : moves_(moves),
        circuit_(moves.faulty().circuit),
        vertices_(circuit_),
        stands_(standing_nodes(moves)) {
    parts_at_.resize(circuit_.nodes.size());
    for (std::size_t index = 0; index < circuit_.parts.size(); ++index) add_places(PartId{index});
    for (std::size_t index = 0; index < circuit_.nodes.size(); ++index) into_node(NodeId{index});
    for (std::size_t index = 0; index < circuit_.parts.size(); ++index) into_part(PartId{index});
  }

  [[nodiscard]] const std::vector<Arrow>& list() const { return arrows_; }

 private:
  [[nodiscard]] bool has_moved(NodeId node) const {
    return !stands_[node.index] && std::abs(moves_.volts(node).step()) > least_move_v;
  }

  [[nodiscard]] bool has_changed(PartId part) const {
    const std::size_t leads = circuit_.at(part).leads.size();
    for (std::size_t lead = 0; lead < leads; ++lead) {
      if (std::abs(moves_.lead_a(part, lead).step()) > least_step_a) return true;
    }
    return false;
  }

  // Before the fault too: a swapped or lifted lead still left its node.
  void add_places(PartId id) {
    const auto& sound = moves_.sound().circuit;
    std::vector<NodeId> nodes;
    const auto add = [&](const Part& part) {
      for (const auto& node : part.leads) {
        if (node && std::find(nodes.begin(), nodes.end(), *node) == nodes.end()) {
          nodes.push_back(*node);
        }
      }
    };
    add(circuit_.at(id));
    if (id.index < sound.parts.size()) add(sound.at(id));
    for (const NodeId node : nodes) parts_at_[node.index].push_back(id);
    nodes_of_.push_back(std::move(nodes));
  }

  /// Of a cause that stands for `share` of the move.
  void arrow(std::size_t from, std::size_t to, double share, double more = 0.0) {
    if (share < least_share) return;
    arrows_.push_back({from, to, 1.0 + cost_of_a_weak_cause * (1.0 - share) + more});
  }

  void into_node(NodeId node) {
    if (!has_moved(node)) return;
    const double move_v = moves_.volts(node).step();
    double whole_a = 0.0;
    for (const PartId part : parts_at_[node.index]) {
      const double step_a = moves_.into_node_a(part, node).step();
      if (agrees(step_a, move_v)) whole_a += std::abs(step_a);
    }
    for (const PartId part : parts_at_[node.index]) {
      const std::size_t from = vertices_.of(part);
      const double step_a = moves_.into_node_a(part, node).step();
      if (std::abs(step_a) > least_step_a && agrees(step_a, move_v) && !stays_off(part)) {
        arrow(from, vertices_.of(node), std::abs(step_a) / whole_a);
      } else if (is_stiff(part) || follows_its_base(part, node)) {
        arrow(from, vertices_.of(node), 1.0, cost_of_a_stiff_part);
      }
      arrow(from, vertices_.of(node), 1.0, cost_of_no_cause);
    }
  }

  /// A diode that conducts neither before nor now: what leaks through it moves nothing.
  [[nodiscard]] bool stays_off(PartId id) const {
    return circuit_.at(id).kind == PartKind::diode && !circuit_.at(id).damage.is_link &&
           moves_.region_now(id) == solve::Conduction::off &&
           moves_.region_before(id) == solve::Conduction::off;
  }

  /// All its ends moved, by the same volts to a tenth, and it conducts.
  [[nodiscard]] bool is_stiff(PartId id) const {
    const Part& part = circuit_.at(id);
    if (part.damage.absent || part.damage.wiper_open || circuit::is_transistor(part.kind) ||
        part.kind == PartKind::capacitor || part.kind == PartKind::feed ||
        part.kind == PartKind::load) {
      return false;
    }
    if (part.kind == PartKind::diode && moves_.region_now(id) == solve::Conduction::off) {
      return false;
    }
    double least_v = std::numeric_limits<double>::infinity();
    double most_v = -least_v;
    for (const auto& node : part.leads) {
      if (!node) continue;
      if (!has_moved(*node)) return false;
      least_v = std::min(least_v, moves_.volts(*node).step());
      most_v = std::max(most_v, moves_.volts(*node).step());
    }
    return most_v - least_v < 0.1 * std::min(std::abs(least_v), std::abs(most_v));
  }

  /// A transistor whose emitter, at `node`, goes as its base does to a tenth.
  [[nodiscard]] bool follows_its_base(PartId id, NodeId node) const {
    const Part& part = circuit_.at(id);
    const auto base = circuit::lead(part, 1);
    if (!circuit::is_transistor(part.kind) || circuit::lead(part, 2) != node || !base) return false;
    if (!has_moved(*base) || moves_.region_now(id) == solve::Conduction::off) return false;
    const double base_v = std::abs(moves_.volts(*base).step());
    return std::abs(moves_.control_v(id).step()) < 0.1 * base_v;
  }

  void into_part(PartId id) {
    const Part& part = circuit_.at(id);
    if (circuit::is_transistor(part.kind)) {
      into_transistor(id, part);
    } else {
      into_passive(id, part);
    }
    const bool takes_part = has_changed(id) || is_stiff(id);
    for (const NodeId node : nodes_of_[id.index]) {
      if (!takes_part || !has_moved(node)) continue;
      if (is_stiff(id)) arrow(vertices_.of(node), vertices_.of(id), 1.0, cost_of_a_stiff_part);
      arrow(vertices_.of(node), vertices_.of(id), 1.0, cost_of_no_cause);
    }
  }

  /// A lead's node drives the part where it rose and pushes more in, or fell and pushes less.
  void into_passive(PartId id, const Part& part) {
    double whole_v = 0.0;
    std::vector<std::pair<NodeId, double>> driving;
    for (std::size_t lead = 0; lead < part.leads.size(); ++lead) {
      const auto node = part.leads[lead];
      const double step_a = moves_.lead_a(id, lead).step();
      if (!node || !has_moved(*node) || std::abs(step_a) <= least_step_a) continue;
      const double move_v = moves_.volts(*node).step();
      if (!agrees(move_v, step_a)) continue;
      driving.emplace_back(*node, std::abs(move_v));
      whole_v += std::abs(move_v);
    }
    for (const auto& [node, move_v] : driving) {
      arrow(vertices_.of(node), vertices_.of(id), move_v / whole_v);
    }
  }

  void into_transistor(PartId id, const Part& part) {
    const auto emitter = circuit::lead(part, 2);
    if (emitter && has_moved(*emitter) && follows_its_base(id, *emitter)) {
      arrow(vertices_.of(*part.leads[1]), vertices_.of(id), 1.0, cost_of_a_stiff_part);
    }
    if (!has_changed(id)) return;
    const double sign = circuit::is_p_kind(part.kind) ? -1.0 : 1.0;
    const double step_a = moves_.main_a(id).step();
    const double base_v = driving_v(part, 1, sign, step_a);
    const double emitter_v = driving_v(part, 2, -sign, step_a);
    const double whole_v = base_v + emitter_v;
    const bool is_down = moves_.breaks_down(id);
    if (base_v > 0.0) arrow(vertices_.of(*part.leads[1]), vertices_.of(id), base_v / whole_v);
    if (emitter_v > 0.0) arrow(vertices_.of(*part.leads[2]), vertices_.of(id), emitter_v / whole_v);
    const auto region = moves_.region_now(id);
    const bool is_bottomed =
        region == solve::Conduction::saturated || region == solve::Conduction::reversed;
    for (std::size_t lead = 0; lead < part.leads.size(); ++lead) {
      const auto node = part.leads[lead];
      if (!node || !has_moved(*node)) continue;
      if (is_down && lead > 0) arrow(vertices_.of(*node), vertices_.of(id), 1.0);
      if (is_bottomed && lead == 0) {
        arrow(vertices_.of(*node), vertices_.of(id), 1.0, cost_of_a_collector);
      }
    }
  }

  /// How far a lead's node moved in the sense that makes `step_a`; 0 where it moved the other way.
  [[nodiscard]] double driving_v(const Part& part,
                                 std::size_t lead,
                                 double sign,
                                 double step_a) const {
    const auto node = circuit::lead(part, lead);
    if (!node || !has_moved(*node) || std::abs(step_a) <= least_step_a) return 0.0;
    const double move_v = moves_.volts(*node).step();
    return agrees(sign * move_v, step_a) ? std::abs(move_v) : 0.0;
  }

  const Moves& moves_;
  const Circuit& circuit_;
  Vertices vertices_;
  std::vector<bool> stands_;
  std::vector<std::vector<PartId>> parts_at_;
  std::vector<std::vector<NodeId>> nodes_of_;
  std::vector<Arrow> arrows_;
};

double largest_rail_v(const Circuit& circuit) {
  double largest_v = 0.0;
  for (const auto& rail : circuit.rails) {
    largest_v = std::max(largest_v, std::abs(circuit::source_v(rail)));
  }
  return largest_v;
}

bool is_wire_to_a_rail(const Part& part) {
  return (part.kind == PartKind::fuse || part.kind == PartKind::link) && !part.damage.absent;
}

struct PartOfVertex {
  const Moves& moves;
  std::size_t bridges_before;
  Vertices vertices{moves.faulty().circuit};

  std::size_t operator()(const circuit::Bridge& /*edit*/) const {
    return vertices.of(PartId{moves.sound().circuit.parts.size() + bridges_before});
  }
  std::size_t operator()(const circuit::LoseRail& edit) const {
    return vertices.of(moves.faulty().circuit.at(edit.rail).node);
  }
  std::size_t operator()(const auto& edit) const { return vertices.of(edit.part); }
};

}  // namespace

std::size_t vertex_of(const circuit::Edit& edit, const Moves& moves, std::size_t bridges_before) {
  return std::visit(PartOfVertex{moves, bridges_before}, edit);
}

std::vector<bool> standing_nodes(const Moves& moves) {
  const Circuit& sound = moves.sound().circuit;
  std::vector<bool> is_supply(moves.faulty().circuit.nodes.size(), false);
  is_supply[circuit::ground.index] = true;
  for (const auto& rail : sound.rails) is_supply[rail.node.index] = true;
  for (std::size_t round = 0; round < sound.parts.size(); ++round) {
    bool has_grown = false;
    for (const Part& part : sound.parts) {
      if (!is_wire_to_a_rail(part)) continue;
      const auto one = circuit::lead(part, 0);
      const auto other = circuit::lead(part, 1);
      if (!one || !other || is_supply[one->index] == is_supply[other->index]) continue;
      is_supply[one->index] = true;
      is_supply[other->index] = true;
      has_grown = true;
    }
    if (!has_grown) break;
  }
  const double gives_way_v = rail_that_gives_way * largest_rail_v(sound);
  for (std::size_t index = 0; index < is_supply.size(); ++index) {
    if (std::abs(moves.volts(NodeId{index}).step()) > gives_way_v) is_supply[index] = false;
  }
  return is_supply;
}

Causes find_causes(const Moves& moves, const std::vector<Start>& starts) {
  const Vertices vertices(moves.faulty().circuit);
  const Arrows found(moves);
  std::vector<Arrow> arrows = found.list();
  const std::size_t start = vertices.count();
  std::vector<bool> is_fault(start, false);
  for (const Start& one : starts) {
    arrows.push_back({start, one.vertex, one.cost});
    is_fault[one.vertex] = true;
  }
  const auto distance = circuit::distances_from(start, start + 1, arrows);

  Causes causes;
  causes.of.resize(start);
  causes.is_unexplained.assign(start, false);
  causes.distance.assign(distance.begin(), distance.end() - 1);
  for (const Arrow& arrow : found.list()) {
    const auto& from = distance[arrow.from];
    const auto& to = distance[arrow.to];
    if (!from || !to || is_fault[arrow.to] || *from + arrow.cost > *to + alike) continue;
    auto& of = causes.of[arrow.to];
    if (std::find(of.begin(), of.end(), arrow.from) == of.end()) of.push_back(arrow.from);
    if (arrow.cost > cost_of_no_cause) causes.is_unexplained[arrow.to] = true;
  }
  return causes;
}

}  // namespace idlepoint::answers
