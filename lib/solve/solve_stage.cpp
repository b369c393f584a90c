#include "solve/solve_stage.hpp"

#include "solve/make_operating_point.hpp"
#include "solve/state_finder.hpp"

namespace idlepoint::solve {

WarmOutcome solve_stage(const circuit::CheckedCircuit& circuit, const Conditions& conditions) {
  StateFinder finder(*circuit, conditions);
  RestOrStory found = finder.find();
  if (auto* story = std::get_if<NotSettled>(&found)) return std::move(*story);
  if (const auto* trouble = std::get_if<ThermalTrouble>(&found)) return *trouble;
  return make_operating_point(*circuit, conditions, finder, std::get<Rest>(found));
}

Outcome solve_cold(const circuit::CheckedCircuit& circuit, const Conditions& conditions) {
  Conditions cold = conditions;
  cold.heat = HeatState::cold;
  WarmOutcome outcome = solve_stage(circuit, cold);
  if (auto* story = std::get_if<NotSettled>(&outcome)) return std::move(*story);
  return std::get<OperatingPoint>(std::move(outcome));
}

}  // namespace idlepoint::solve
