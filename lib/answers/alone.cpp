#include "answers/alone.hpp"

#include <algorithm>
#include <utility>

#include "solve/solve_stage.hpp"

namespace idlepoint::answers {
namespace {

using circuit::Circuit;
using circuit::NodeId;
using circuit::Part;
using circuit::PartId;
using circuit::PartKind;

using circuit::ground;

void keep_only(Circuit& circuit, std::span<const PartId> parts) {
  for (std::size_t index = 0; index < circuit.parts.size(); ++index) {
    const bool kept =
        std::any_of(parts.begin(), parts.end(), [index](PartId id) { return id.index == index; });
    if (!kept) circuit.parts[index].damage.absent = true;
  }
  for (auto& rail : circuit.rails) rail.lost = true;
}

void add_hold(Circuit& circuit, NodeId node, double volts) {
  Part hold;
  hold.name = "bench hold " + circuit.at(node).name;
  hold.kind = PartKind::hold;
  hold.leads = {node, ground};
  hold.value = volts;
  circuit.parts.push_back(std::move(hold));
}

void add_feed(Circuit& circuit, NodeId from, NodeId into, double amps) {
  Part feed;
  feed.name = "bench feed";
  feed.kind = PartKind::feed;
  feed.leads = {from, into};
  feed.value = amps;
  feed.details = circuit::FeedDetails{.compliance_v = std::nullopt};
  circuit.parts.push_back(std::move(feed));
}

NodeId add_node(Circuit& circuit, const char* name) {
  circuit.nodes.push_back({.name = name, .is_socket = false, .lifted = true, .place = {}});
  return {circuit.nodes.size() - 1};
}

std::optional<double> volts_between(const circuit::CheckedCircuit& bench, NodeId a, NodeId b) {
  const auto outcome = solve::solve_cold(bench);
  const auto* state = std::get_if<solve::OperatingPoint>(&outcome);
  if (state == nullptr) return std::nullopt;
  return state->voltage_v(a) - state->voltage_v(b);
}

}  // namespace

std::optional<double> volts_alone(const circuit::CheckedCircuit& stage,
                                  std::span<const PartId> parts,
                                  const circuit::VoltsBetween& points,
                                  const TestCurrent& test) {
  const auto bench = stage.edited([&](Circuit& circuit) {
    keep_only(circuit, parts);
    circuit.ambient_k = test.temperature_k;
    if (points.a != ground && points.b != ground) add_hold(circuit, points.b, 0.0);
    add_feed(circuit, points.b, points.a, test.amps);
  });
  return volts_between(bench, points.a, points.b);
}

std::optional<double> control_volts(const circuit::CheckedCircuit& stage,
                                    PartId id,
                                    double across_v,
                                    const TestCurrent& test) {
  const double sign = circuit::is_p_kind(stage->at(id).kind) ? -1.0 : 1.0;
  NodeId high;
  const auto bench = stage.edited([&](Circuit& circuit) {
    keep_only(circuit, std::span(&id, 1));
    circuit.ambient_k = test.temperature_k;
    high = add_node(circuit, "bench high");
    if (circuit.at(id).kind == PartKind::diode) {
      circuit.at(id).leads = {high, ground};
      add_feed(circuit, ground, high, test.amps);
      return;
    }
    const NodeId low = add_node(circuit, "bench low");
    circuit.at(id).leads = {low, ground, high};  // base or gate on ground
    add_hold(circuit, low, sign * across_v);
    add_feed(circuit, high, ground, sign * test.amps);
  });
  const bool is_diode = stage->at(id).kind == PartKind::diode;
  const auto volts =
      is_diode ? volts_between(bench, high, ground) : volts_between(bench, ground, high);
  if (!volts) return std::nullopt;
  return is_diode ? *volts : sign * *volts;
}

}  // namespace idlepoint::answers
