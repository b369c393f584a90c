#include "answers/readings.hpp"

#include <utility>

#include "solve/solve_stage.hpp"

namespace idlepoint::answers {

std::variant<Readings, solve::NotSettled> ask_readings(const Setup& setup) {
  auto outcome = solve::solve_cold(setup.stage, setup.conditions);
  if (auto* story = std::get_if<solve::NotSettled>(&outcome)) return std::move(*story);
  auto& state = std::get<solve::OperatingPoint>(outcome);

  auto warnings = standing_warnings(setup);
  for (auto& text : state_warnings(*setup.stage, state)) warnings.push_back(std::move(text));
  auto readings = read_all(setup.stage, state);
  return Readings{
      setup.stage, std::move(state), std::move(readings), setup.changes, std::move(warnings)};
}

}  // namespace idlepoint::answers
