#include "answers/taken_out.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <utility>

#include "answers/played_loud.hpp"
#include "circuit/edits.hpp"
#include "circuit/sentence.hpp"
#include "solve/solve_stage.hpp"

namespace idlepoint::answers {
namespace {

using circuit::CheckedCircuit;
using circuit::Circuit;
using circuit::NodeId;
using circuit::Part;
using circuit::PartId;
using circuit::PartKind;

bool conducts(const Part& part) {
  if (part.damage.absent || part.kind == PartKind::feed || part.kind == PartKind::load) {
    return false;
  }
  const auto* capacitor = std::get_if<circuit::CapacitorDetails>(&part.details);
  return capacitor == nullptr || part.damage.is_link || capacitor->leakage_ohm.has_value();
}

bool holds(const Part& part, NodeId node) {
  return std::find(part.leads.begin(), part.leads.end(), std::optional(node)) != part.leads.end();
}

/// The nodes that `part` joins, each once; a gate joins nothing.
std::vector<NodeId> joined_by(const Part& part) {
  std::vector<NodeId> nodes;
  for (std::size_t lead = 0; lead < part.leads.size(); ++lead) {
    const bool is_gate = circuit::is_fet(part.kind) && lead == 1;
    const auto node = circuit::lead(part, lead);
    if (!node || is_gate) continue;
    if (std::find(nodes.begin(), nodes.end(), *node) == nodes.end()) nodes.push_back(*node);
  }
  return nodes;
}

/// Which nodes hang on one part alone, and so carry nothing.
class DeadEnds {
 public:
  explicit DeadEnds(const Circuit& circuit) : circuit_(circuit), hangs_on_(circuit.nodes.size()) {
    std::vector<std::vector<PartId>> parts_at(circuit.nodes.size());
    for (std::size_t index = 0; index < circuit.parts.size(); ++index) {
      const auto nodes = joined_by(circuit.parts[index]);
      if (!conducts(circuit.parts[index]) || nodes.size() < 2) continue;
      for (const NodeId node : nodes) parts_at[node.index].push_back(PartId{index});
    }
    std::vector<bool> is_firm(circuit.nodes.size(), false);
    is_firm[circuit::ground.index] = true;
    for (const auto& rail : circuit.rails) is_firm[rail.node.index] = true;
    prune(parts_at, is_firm);
  }

  /// The point, reached over parts without current, whose volts the node has.
  [[nodiscard]] NodeId root_of(NodeId node) const {
    while (const auto part = hangs_on_[node.index]) node = far_end(*part, node);
    return node;
  }

 private:
  [[nodiscard]] NodeId far_end(PartId part, NodeId node) const {
    const auto nodes = joined_by(circuit_.at(part));
    return nodes.front() == node ? nodes.back() : nodes.front();
  }

  void prune(std::vector<std::vector<PartId>>& parts_at, const std::vector<bool>& is_firm) {
    for (bool is_changed = true; is_changed;) {
      is_changed = false;
      for (std::size_t index = 0; index < parts_at.size(); ++index) {
        const NodeId node{index};
        if (is_firm[index] || hangs_on_[index] || parts_at[index].size() != 1) continue;
        const PartId part = parts_at[index].front();
        if (joined_by(circuit_.at(part)).size() != 2) continue;
        hangs_on_[index] = part;
        std::erase(parts_at[far_end(part, node).index], part);
        is_changed = true;
      }
    }
  }

  const Circuit& circuit_;
  std::vector<std::optional<PartId>> hangs_on_;
};

bool share_a_root(const DeadEnds& ends, const circuit::VoltsBetween& points) {
  return points.a != points.b && ends.root_of(points.a) == ends.root_of(points.b);
}

std::optional<solve::OperatingPoint> solved(const CheckedCircuit& stage,
                                            const solve::Conditions& conditions) {
  auto outcome = solve::solve_stage(stage, conditions);
  auto* state = std::get_if<solve::OperatingPoint>(&outcome);
  return state == nullptr ? std::nullopt : std::optional(std::move(*state));
}

WithPartsOut standing_of(const Circuit& circuit,
                         const std::pair<DeadEnds, DeadEnds>& without_and_whole,
                         const circuit::Probe& probe) {
  const auto* points = std::get_if<circuit::VoltsBetween>(&probe);
  const bool is_silent = points != nullptr && share_a_root(without_and_whole.first, *points) &&
                         !share_a_root(without_and_whole.second, *points);
  if (is_silent) return WithPartsOut::reads_nothing;
  return is_of_taken_out(circuit, probe) ? WithPartsOut::reads_others : WithPartsOut::as_usual;
}

/// Of the output, ohms against a current that is drawn from it; endless where it does not settle.
double firmness_ohm(const CheckedCircuit& stage,
                    const solve::Conditions& conditions,
                    NodeId output) {
  constexpr double test_a = 0.1e-3;
  std::array<double, 2> volts{};
  for (const std::size_t sense : {std::size_t{0}, std::size_t{1}}) {
    const auto from = sense == 0 ? output : circuit::ground;
    const auto into = sense == 0 ? circuit::ground : output;
    const auto pulled = drawing_current(stage, from, into, test_a);
    const auto outcome = solve::solve_cold(pulled, conditions);
    const auto* state = std::get_if<solve::OperatingPoint>(&outcome);
    if (state == nullptr) return HUGE_VAL;
    volts.at(sense) = state->voltage_v(output);
  }
  return std::abs(volts[1] - volts[0]) / (2.0 * test_a);
}

bool is_loose(const CheckedCircuit& stage, const solve::Conditions& conditions, NodeId output) {
  constexpr double loose_ohm = 250.0;
  return firmness_ohm(stage, conditions, output) > loose_ohm;
}

/// Whether anything but `output` ties `node` to ground or a rail.
bool leads_on(const Circuit& circuit, NodeId node, NodeId output) {
  std::vector<bool> seen(circuit.nodes.size(), false);
  seen[output.index] = true;
  std::vector<NodeId> open{node};
  while (!open.empty()) {
    const NodeId at = open.back();
    open.pop_back();
    if (at == circuit::ground || circuit::find_rail(circuit, at)) return true;
    if (seen[at.index]) continue;
    seen[at.index] = true;
    for (const Part& part : circuit.parts) {
      const auto nodes = joined_by(part);
      const bool is_here = std::find(nodes.begin(), nodes.end(), at) != nodes.end();
      if (is_here && conducts(part)) open.insert(open.end(), nodes.begin(), nodes.end());
    }
  }
  return false;
}

std::vector<PartId> what_it_hangs_on(const Circuit& circuit, NodeId output) {
  std::vector<PartId> found;
  for (std::size_t index = 0; index < circuit.parts.size(); ++index) {
    const Part& part = circuit.parts[index];
    if (part.kind != PartKind::resistor || !conducts(part)) continue;
    const auto nodes = joined_by(part);
    if (nodes.size() != 2 || (nodes[0] != output && nodes[1] != output)) continue;
    const NodeId far = nodes[0] == output ? nodes[1] : nodes[0];
    if (leads_on(circuit, far, output)) found.push_back(PartId{index});
  }
  return found;
}

CheckedCircuit linked(const CheckedCircuit& stage, NodeId a, NodeId b) {
  const auto outcome = circuit::apply(stage, circuit::Bridge{a, b});
  const auto* bridged = std::get_if<CheckedCircuit>(&outcome);
  return bridged == nullptr ? stage : *bridged;
}

/// The link with which the output stands firm, and nearest to where the whole stage has it.
std::optional<LooseOutput::Link> find_link(const CheckedCircuit& stage,
                                           const solve::Conditions& cold,
                                           NodeId output,
                                           double whole_v) {
  std::optional<LooseOutput::Link> best;
  double best_off_v = 0.0;
  for (const PartId part : taken_out(*stage)) {
    const auto base = circuit::lead(stage->at(part), 1);
    if (!circuit::is_transistor(stage->at(part).kind) || !base || *base == output) continue;
    const CheckedCircuit with_link = linked(stage, *base, output);
    const auto state = solved(with_link, cold);
    if (!state || is_loose(with_link, cold, output)) continue;
    constexpr double astray_v = 2.0;
    const double off_v = std::abs(state->voltage_v(output) - whole_v);
    if (off_v > astray_v || (best && off_v >= best_off_v)) continue;
    best = LooseOutput::Link{*base, part};
    best_off_v = off_v;
  }
  return best;
}

bool is_meanwhile_link(const Circuit& circuit, const Part& part) {
  const auto output = circuit::output_node(circuit);
  if (part.kind != PartKind::link || !output || !holds(part, *output)) return false;
  return std::any_of(circuit.parts.begin(), circuit.parts.end(), [&](const Part& out) {
    const auto base = circuit::lead(out, 1);
    return out.damage.taken_out && circuit::is_transistor(out.kind) && base && holds(part, *base);
  });
}

}  // namespace

CheckedCircuit with_link(const CheckedCircuit& stage, const LooseOutput& loose) {
  return loose.link ? linked(stage, loose.link->to, loose.output) : stage;
}

std::vector<PartId> taken_out(const Circuit& circuit) {
  std::vector<PartId> found;
  for (std::size_t index = 0; index < circuit.parts.size(); ++index) {
    if (circuit.parts[index].damage.taken_out) found.push_back(PartId{index});
  }
  return found;
}

std::string names_taken_out(const Circuit& circuit) {
  std::vector<std::string> names;
  for (const PartId part : taken_out(circuit)) names.push_back(circuit.at(part).name);
  return names.empty() ? std::string{} : circuit::list_words(names);
}

std::string judged_with_all_parts(const Circuit& circuit) {
  return "Judged with " + names_taken_out(circuit) + " in their places.";
}

CheckedCircuit with_all_parts(const CheckedCircuit& stage) {
  return stage.edited([](Circuit& circuit) {
    for (Part& part : circuit.parts) part.damage.absent |= is_meanwhile_link(circuit, part);
    for (Part& part : circuit.parts) {
      if (!part.damage.taken_out) continue;
      part.damage.taken_out = false;
      part.damage.absent = false;
    }
  });
}

bool is_of_taken_out(const Circuit& circuit, const circuit::Probe& probe) {
  const auto* points = std::get_if<circuit::VoltsBetween>(&probe);
  if (points == nullptr) return false;
  const auto output = circuit::output_node(circuit);
  const auto is_end_of = [&](PartId part) {
    for (const std::size_t lead : {std::size_t{0}, std::size_t{2}}) {
      const auto node = circuit::lead(circuit.at(part), lead);
      if (!node || node == output || *node == circuit::ground || circuit::find_rail(circuit, *node))
        continue;
      if (*node == points->a || *node == points->b) return true;
    }
    return false;
  };
  const auto out = taken_out(circuit);
  return std::any_of(out.begin(), out.end(), [&](PartId part) {
    return circuit::is_transistor(circuit.at(part).kind) && is_end_of(part);
  });
}

void judge_without(const CheckedCircuit& stage,
                   const solve::Conditions& conditions,
                   std::vector<ReadingValue>& readings) {
  if (taken_out(*stage).empty()) return;
  const CheckedCircuit whole = with_all_parts(stage);
  const std::pair<DeadEnds, DeadEnds> ends{DeadEnds(*stage), DeadEnds(*whole)};
  const auto whole_state = solved(whole, conditions);
  for (ReadingValue& reading : readings) {
    reading.with_parts_out = standing_of(*stage, ends, reading.probe);
    if (reading.with_parts_out != WithPartsOut::as_usual) {
      reading.within_limit = std::nullopt;
    } else if (reading.within_limit == false && whole_state) {
      const double si_value = whole_state->read(*whole, reading.probe);
      if (si_value < reading.limit->low || si_value > reading.limit->high) continue;
      reading.within_limit = std::nullopt;
      reading.with_parts_out = WithPartsOut::not_judged;
    }
  }
}

std::optional<LooseOutput> find_loose_output(const CheckedCircuit& stage,
                                             const solve::Conditions& conditions) {
  const auto output = circuit::output_node(*stage);
  if (!output || taken_out(*stage).empty()) return std::nullopt;
  solve::Conditions cold = conditions;
  cold.heat = solve::HeatState::cold;
  cold.load_connected = false;
  const CheckedCircuit whole = with_all_parts(stage);
  if (!is_loose(stage, cold, *output) || is_loose(whole, cold, *output)) return std::nullopt;
  LooseOutput loose{*output, what_it_hangs_on(*stage, *output)};
  if (const auto state = solved(whole, cold)) {
    loose.link = find_link(stage, cold, *output, state->voltage_v(*output));
  }
  return loose;
}

}  // namespace idlepoint::answers
