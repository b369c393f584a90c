// What can be set while parts are out, and where their bias is read meanwhile. Declared in
// answers/taken_out.hpp.
#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

#include "answers/taken_out.hpp"
#include "solve/solve_stage.hpp"

namespace idlepoint::answers {
namespace {

using circuit::CheckedCircuit;
using circuit::Circuit;
using circuit::NodeId;
using circuit::Part;
using circuit::PartId;
using circuit::VoltsBetween;

constexpr std::array places{0.0, 0.5, 1.0};

/// Highest less lowest of a probe with the trimmer at both ends and half way; none without a state.
std::optional<double> range_of(const CheckedCircuit& stage,
                               const solve::Conditions& conditions,
                               PartId trimmer,
                               const circuit::Probe& probe) {
  double lowest = HUGE_VAL;
  double highest = -HUGE_VAL;
  for (const double travel : places) {
    const auto moved = stage.edited([&](Circuit& circuit) {
      std::get<circuit::TrimmerDetails>(circuit.at(trimmer).details).travel = travel;
    });
    const auto outcome = solve::solve_cold(moved, conditions);
    const auto* state = std::get_if<solve::OperatingPoint>(&outcome);
    if (state == nullptr) return std::nullopt;
    const double value = state->read(*moved, probe);
    lowest = std::min(lowest, value);
    highest = std::max(highest, value);
  }
  return highest - lowest;
}

bool touches(const circuit::Probe& probe, NodeId node) {
  const auto* points = std::get_if<VoltsBetween>(&probe);
  return points != nullptr && (points->a == node || points->b == node);
}

/// Few ohms: base and gate stoppers, emitter resistors.
constexpr double few_ohm = 100.0;

/// `node` and what a few ohms join to it.
std::vector<NodeId> near(const Circuit& circuit, NodeId node) {
  std::vector<NodeId> found{node};
  for (const Part& part : circuit.parts) {
    if (part.kind != circuit::PartKind::resistor || part.damage.absent || part.value > few_ohm) {
      continue;
    }
    const auto one = circuit::lead(part, 0);
    const auto other = circuit::lead(part, 1);
    if (one == node && other) found.push_back(*other);
    if (other == node && one) found.push_back(*one);
  }
  return found;
}

bool holds(const std::vector<NodeId>& nodes, std::optional<NodeId> node) {
  return node && std::find(nodes.begin(), nodes.end(), *node) != nodes.end();
}

/// The base of the transistor that drives `driven`, whose base is at `base`: a follower of its own
/// polarity, or one of the other that hangs on the output with its emitter.
std::optional<PartId> driver_of(const Circuit& circuit,
                                const Part& driven,
                                NodeId base,
                                NodeId output) {
  const auto at_base = near(circuit, base);
  const auto at_output = near(circuit, output);
  for (std::size_t index = 0; index < circuit.parts.size(); ++index) {
    const Part& part = circuit.parts[index];
    if (!circuit::is_bipolar(part.kind) || part.damage.absent || part.damage.taken_out) continue;
    const bool is_like = circuit::is_p_kind(part.kind) == circuit::is_p_kind(driven.kind);
    const bool follows = is_like && holds(at_base, circuit::lead(part, 2));
    const bool feeds = !is_like && holds(at_base, circuit::lead(part, 0)) &&
                       holds(at_output, circuit::lead(part, 2));
    if (follows || feeds) return PartId{index};
  }
  return std::nullopt;
}

std::optional<NodeId> first_base(const Circuit& circuit, PartId part, NodeId output) {
  auto base = circuit::lead(circuit.at(part), 1);
  constexpr int most_stages = 4;
  for (int stage = 0; base && stage < most_stages; ++stage) {
    const auto driver = driver_of(circuit, circuit.at(part), *base, output);
    if (!driver) break;
    part = *driver;
    base = circuit::lead(circuit.at(part), 1);
  }
  return base;
}

/// The far end of the few ohms in a transistor's emitter or source lead, or that lead.
std::optional<NodeId> foot_of(const Circuit& circuit, PartId part) {
  const auto emitter = circuit::lead(circuit.at(part), 2);
  if (!emitter) return std::nullopt;
  return near(circuit, *emitter).back();
}

std::vector<BiasPoints> candidates(const Circuit& circuit, NodeId output) {
  std::vector<BiasPoints> found;
  for (std::size_t index = 0; index < circuit.readings.size(); ++index) {
    const auto& probe = circuit.readings[index].probe;
    const auto* points = std::get_if<VoltsBetween>(&probe);
    const bool is_inside = points != nullptr && !touches(probe, output) &&
                           !touches(probe, circuit::ground) && !is_of_taken_out(circuit, probe);
    if (is_inside) found.push_back({*points, circuit::ReadingId{index}});
  }
  const auto out = taken_out(circuit);
  const auto add = [&](std::optional<NodeId> a, std::optional<NodeId> b) {
    if (a && b && *a != *b) found.push_back({{*a, *b}, std::nullopt});
  };
  for (const PartId one : out) {
    for (const PartId other : out) {
      if (one < other) add(first_base(circuit, one, output), first_base(circuit, other, output));
    }
  }
  for (const PartId part : out) {
    add(circuit::lead(circuit.at(part), 1), foot_of(circuit, part));
  }
  return found;
}

}  // namespace

std::vector<bool> set_with_all_parts(const CheckedCircuit& stage,
                                     const solve::Conditions& conditions) {
  if (taken_out(*stage).empty()) return {};
  const CheckedCircuit whole = with_all_parts(stage);
  const auto loose = find_loose_output(stage, conditions);
  std::vector<bool> result;
  for (const auto& adjustment : stage->adjustments) {
    const auto& probe = stage->at(adjustment.reading).probe;
    if (is_of_taken_out(*stage, probe) || (loose && touches(probe, loose->output))) {
      result.push_back(true);
      continue;
    }
    const auto now = range_of(stage, conditions, adjustment.trimmer, probe);
    const auto with_them = range_of(whole, conditions, adjustment.trimmer, probe);
    result.push_back(now && with_them && *now < 0.5 * *with_them);
  }
  return result;
}

std::optional<BiasPoints> find_bias_points(const CheckedCircuit& stage,
                                           const solve::Conditions& conditions,
                                           PartId trimmer) {
  const auto output = circuit::output_node(*stage);
  if (!output) return std::nullopt;
  const CheckedCircuit whole = with_all_parts(stage);
  const auto outcome = solve::solve_cold(whole, conditions);
  const auto* state = std::get_if<solve::OperatingPoint>(&outcome);
  if (state == nullptr) return std::nullopt;
  std::optional<BiasPoints> best;
  double furthest_v = 10e-3;
  for (BiasPoints one : candidates(*stage, *output)) {
    constexpr double few_junctions_v = 8.0;
    const double volts = state->voltage_v(one.points.a) - state->voltage_v(one.points.b);
    if (std::abs(volts) > few_junctions_v) continue;
    const auto range = range_of(whole, conditions, trimmer, one.points);
    if (!range || *range < furthest_v) continue;
    if (one.reading) return one;
    if (volts < 0.0) std::swap(one.points.a, one.points.b);
    furthest_v = *range;
    best = one;
  }
  return best;
}

}  // namespace idlepoint::answers
