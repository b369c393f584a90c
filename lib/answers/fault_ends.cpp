#include "answers/fault_ends.hpp"

#include <algorithm>
#include <cmath>

#include "answers/emitter_resistors.hpp"
#include "answers/fault_graph.hpp"
#include "answers/reading_values.hpp"

namespace idlepoint::answers {
namespace {

using circuit::NodeId;
using circuit::Part;
using circuit::PartId;

constexpr double shown_share = 0.02;
constexpr double shown_step = 50e-6;  // amperes, watts
constexpr double shown_k = 1.0;
constexpr double counts_in_a_difference = 0.25;
constexpr double counts_in_a_rail = 0.3;
constexpr double counts_beside_the_furthest = 0.03;

class Ends {
 public:
  explicit Ends(const Moves& moves)
      : moves_(moves),
        circuit_(moves.faulty().circuit),
        vertices_(circuit_),
        stands_(standing_nodes(moves)) {}

  void operator()(const circuit::VoltsBetween& points) {
    if (const auto read = resistors_read(moves_.sound().circuit, points)) {
      add(read->first);
      if (read->is_emitter_resistor) add_starved(read->first);
      if (read->second) {
        add(*read->second);
        if (read->is_emitter_resistor) add_starved(*read->second);
      }
      return;
    }
    const double change_v = moves_.volts(points.a).step() - moves_.volts(points.b).step();
    for (const NodeId node : {points.a, points.b}) {
      const double step_v = moves_.volts(node).step();
      if (std::abs(step_v) >= counts_in_a_difference * std::abs(change_v)) add(node);
    }
  }

  void operator()(const circuit::AmpsThrough& amps) { of_current(amps.what); }
  void operator()(const circuit::WattsIn& watts) { of_current(watts.what); }
  void operator()(const circuit::CelsiusOf& /*celsius*/) {}

  void add(PartId part) { add_vertex(vertices_.of(part)); }

  void add(NodeId node) {
    if (!stands_[node.index]) nodes_.push_back(node);
  }

  std::vector<std::size_t> list() {
    double furthest_v = 0.0;
    for (const NodeId node : nodes_) {
      furthest_v = std::max(furthest_v, std::abs(moves_.volts(node).step()));
    }
    for (const NodeId node : nodes_) {
      const double step_v = std::abs(moves_.volts(node).step());
      if (step_v > counts_beside_the_furthest * furthest_v) add_vertex(vertices_.of(node));
    }
    return list_;
  }

 private:
  /// The transistor that a resistor is there for, where less than half of its current is left: the
  /// resistor alone would not say who gave up.
  void add_starved(PartId resistor) {
    constexpr double left = 0.5;
    const Part& read = circuit_.at(resistor);
    for (std::size_t index = 0; index < circuit_.parts.size(); ++index) {
      const Part& part = circuit_.parts[index];
      const auto emitter = circuit::lead(part, 2);
      if (!circuit::is_transistor(part.kind) || part.damage.absent || !emitter) continue;
      if (circuit::lead(read, 0) != emitter && circuit::lead(read, 1) != emitter) continue;
      const Change amps = moves_.main_a(PartId{index});
      if (std::abs(amps.now) < left * std::abs(amps.was)) add(PartId{index});
    }
  }

  void add_vertex(std::size_t vertex) {
    if (std::find(list_.begin(), list_.end(), vertex) == list_.end()) list_.push_back(vertex);
  }

  void of_current(const std::variant<PartId, circuit::RailId>& what) {
    if (const auto* rail = std::get_if<circuit::RailId>(&what)) {
      add_drawing_from(circuit_.at(*rail).node);
      return;
    }
    const PartId id = std::get<PartId>(what);
    const Part& part = circuit_.at(id);
    for (const auto& node : part.leads) {
      if (node && stands_[node->index] && part.leads.size() == 2) add_drawing_from(*node);
    }
    add(id);
  }

  /// The parts whose current from a standing node and what is wired to it changed most.
  void add_drawing_from(NodeId from) {
    std::vector<std::pair<PartId, double>> drawing;
    double largest_a = 0.0;
    for (std::size_t index = 0; index < circuit_.parts.size(); ++index) {
      const Part& part = circuit_.at(PartId{index});
      if (part.kind == circuit::PartKind::fuse || part.kind == circuit::PartKind::link) continue;
      for (const auto& node : part.leads) {
        if (!node || !is_wired_to(*node, from)) continue;
        const double step_a = std::abs(moves_.into_node_a(PartId{index}, *node).step());
        drawing.emplace_back(PartId{index}, step_a);
        largest_a = std::max(largest_a, step_a);
        break;
      }
    }
    for (const auto& [part, step_a] : drawing) {
      if (step_a > counts_in_a_rail * largest_a) add(part);
    }
  }

  [[nodiscard]] bool is_wired_to(NodeId node, NodeId from) const {
    if (node == from) return true;
    return std::any_of(circuit_.parts.begin(), circuit_.parts.end(), [&](const Part& part) {
      const bool is_wire =
          part.kind == circuit::PartKind::fuse || part.kind == circuit::PartKind::link;
      const auto holds = [&](NodeId one) {
        return std::find(part.leads.begin(), part.leads.end(), std::optional(one)) !=
               part.leads.end();
      };
      return is_wire && !part.damage.absent && holds(node) && holds(from);
    });
  }

  const Moves& moves_;
  const circuit::Circuit& circuit_;
  Vertices vertices_;
  std::vector<bool> stands_;
  std::vector<std::size_t> list_;
  std::vector<NodeId> nodes_;
};

}  // namespace

bool meter_shows(const circuit::Circuit& circuit,
                 const circuit::Probe& probe,
                 const Change& change) {
  const double step = std::abs(change.step());
  const double larger = std::max(std::abs(change.was), std::abs(change.now));
  switch (unit_of(probe)) {
    case ReadingUnit::volt:
      return step > 2.0 * (circuit.meter.floor_v + circuit.meter.error * larger);
    case ReadingUnit::ampere:
    case ReadingUnit::watt:
      return step > shown_step && step > shown_share * larger;
    case ReadingUnit::celsius:
      return step > shown_k;
  }
  return false;
}

std::vector<std::size_t> find_ends(const Moves& moves, const std::vector<PartId>& in_danger) {
  const auto& circuit = moves.faulty().circuit;
  Ends ends(moves);
  for (const auto& reading : circuit.readings) {
    const Change change{moves.sound().state.read(moves.sound().circuit, reading.probe),
                        moves.faulty().state.read(circuit, reading.probe)};
    if (meter_shows(circuit, reading.probe, change)) std::visit(ends, reading.probe);
  }
  for (const PartId part : in_danger) ends.add(part);
  const auto output = circuit::output_node(circuit);
  if (output && std::abs(moves.volts(*output).step()) > 2.0 * circuit.meter.floor_v) {
    ends.add(*output);
  }
  return ends.list();
}

}  // namespace idlepoint::answers
