#include "answers/readings.hpp"

#include <utility>

#include "solve/solve_stage.hpp"

namespace idlepoint::answers {

std::variant<Readings, solve::NotSettled, ThermalStory> ask_readings(const Setup& setup) {
  auto outcome = solve::solve_stage(setup.stage, setup.conditions);
  if (auto* story = std::get_if<solve::NotSettled>(&outcome)) return std::move(*story);
  if (const auto* trouble = std::get_if<solve::ThermalTrouble>(&outcome)) {
    return tell_thermal(setup, setup.stage, *trouble);
  }
  auto& state = std::get<solve::OperatingPoint>(outcome);

  Readings answer{setup.stage, std::move(state), {}};
  answer.readings = read_all(answer.stage, answer.state);
  add_bands(answer.stage, setup.conditions, answer.readings);
  if (setup.conditions.heat == solve::HeatState::warm) {
    answer.cold = read_cold_moment(answer.stage, setup.conditions);
    if (answer.cold) {
      add_bands(answer.stage, answer.cold->state.conditions(), answer.cold->readings);
    }
    answer.thermal = find_thermal_margin(answer.stage, answer.state);
  }
  answer.hot = find_hot(answer.stage, answer.state);
  answer.changes = setup.changes;
  answer.warnings = standing_warnings(setup);
  for (auto& text : warnings_of_both(*answer.stage, answer.state, answer.cold)) {
    answer.warnings.push_back(std::move(text));
  }
  return answer;
}

}  // namespace idlepoint::answers
