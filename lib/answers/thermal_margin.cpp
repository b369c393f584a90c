#include "answers/thermal_margin.hpp"

#include "answers/warm_edge.hpp"

namespace idlepoint::answers {
namespace {

Edge edge_of_room(const circuit::Circuit& circuit, const solve::Conditions& conditions) {
  if (circuit.ambient_k >= hottest_room_tried_k) return {};
  return find_edge(move_room(circuit, conditions), {circuit.ambient_k, hottest_room_tried_k, 0.1});
}

Edge edge_of_rails(const circuit::Circuit& circuit, const solve::Conditions& conditions) {
  const auto move = [&](double rails) {
    MovedStage moved{circuit, conditions};
    moved.conditions.rails = rails;
    return moved;
  };
  if (conditions.rails >= highest_rails_tried) return {};
  return find_edge(move, {conditions.rails, highest_rails_tried, 1e-3});
}

TrimmerEdges edges_of_trimmer(const circuit::Circuit& circuit,
                              const solve::Conditions& conditions,
                              circuit::PartId trimmer) {
  const auto move = move_trimmer(circuit, conditions, trimmer);
  const double travel = travel_of(circuit, trimmer);
  return {trimmer, find_edge(move, {travel, 0.0, 1e-3}), find_edge(move, {travel, 1.0, 1e-3})};
}

}  // namespace

ThermalMargin find_thermal_margin(const circuit::CheckedCircuit& stage,
                                  const solve::OperatingPoint& warm) {
  const solve::Conditions& conditions = warm.conditions();
  ThermalMargin margin;
  margin.loop_gain = warm.loop_gain();
  margin.ambient_k = edge_of_room(*stage, conditions);
  margin.rails = edge_of_rails(*stage, conditions);
  for (const auto trimmer : trimmers_that_turn(*stage)) {
    margin.trimmers.push_back(edges_of_trimmer(*stage, conditions, trimmer));
  }
  return margin;
}

}  // namespace idlepoint::answers
