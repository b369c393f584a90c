// A stage's text solved warm inside a test.
#pragma once

#include "../published/solve_text.hpp"

namespace idlepoint::tests {

inline solve::WarmOutcome warm_outcome(const circuit::CheckedCircuit& checked) {
  solve::Conditions conditions;
  conditions.heat = solve::HeatState::warm;
  return solve::solve_stage(checked, conditions);
}

/// The warm state, which must exist.
inline solve::OperatingPoint warm(const circuit::CheckedCircuit& checked) {
  auto outcome = warm_outcome(checked);
  if (const auto* trouble = std::get_if<solve::NotSettled>(&outcome)) FAIL(story(*trouble));
  REQUIRE(std::holds_alternative<solve::OperatingPoint>(outcome));
  return std::get<solve::OperatingPoint>(std::move(outcome));
}

/// The trouble, which must be met.
inline solve::ThermalTrouble warm_trouble(const circuit::CheckedCircuit& checked) {
  auto outcome = warm_outcome(checked);
  REQUIRE(std::holds_alternative<solve::ThermalTrouble>(outcome));
  return std::get<solve::ThermalTrouble>(outcome);
}

inline double read(const circuit::CheckedCircuit& checked,
                   const solve::OperatingPoint& point,
                   const std::string& probe) {
  return point.read(*checked, required(language::read_probe(probe, *checked)));
}

}  // namespace idlepoint::tests
