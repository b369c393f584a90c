#include "answers/powerup.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "answers/powerup_steps.hpp"
#include "solve/solve_stage.hpp"

namespace idlepoint::answers {
namespace {

using circuit::CheckedCircuit;

solve::Conditions cold_at(const Setup& setup, double step) {
  solve::Conditions conditions = setup.conditions;
  conditions.heat = solve::HeatState::cold;
  conditions.rails *= step;
  return conditions;
}

std::vector<const solve::OperatingPoint*> states_of(const std::vector<PowerupStep>& steps) {
  std::vector<const solve::OperatingPoint*> states;
  for (const auto& step : steps) {
    states.push_back(step.safe_end ? &step.safe_end->state : nullptr);
  }
  return states;
}

void add_limits(Powerup& answer) {
  for (std::size_t index = 0; index < answer.steps.size(); ++index) {
    auto& step = answer.steps[index];
    if (!step.safe_end) continue;
    for (std::size_t k = 0; k < step.safe_end->readings.size(); ++k) {
      std::vector<FaultReads> reads;
      for (std::size_t fault = 0; fault < answer.faults.size(); ++fault) {
        const auto& shown = answer.faults[fault].steps[index];
        if (shown.effect && shown.finds_state) reads.push_back({fault, shown.readings[k]});
      }
      const auto& meter = answer.places.at_safe_end->meter;
      std::vector<ReadingValue> sound = {step.safe_end->readings[k]};
      step.switch_off_at_safe_end.push_back(find_switch_off(meter, sound, reads));
      if (step.preset) sound.push_back(step.preset->readings[k]);
      step.switch_off.push_back(find_switch_off(meter, sound, reads));
    }
  }
}

std::optional<LampShows> shine(const CheckedCircuit& stage,
                               const Setup& setup,
                               const SeriesLamp& lamp) {
  const auto state = settle_lamp(lamp, [&](double rails) -> std::optional<double> {
    const auto outcome = solve::solve_cold(stage, cold_at(setup, rails));
    const auto* point = std::get_if<solve::OperatingPoint>(&outcome);
    if (point == nullptr) return std::nullopt;
    return point->total_power_w();
  });
  if (!state) return std::nullopt;
  return LampShows{*state};
}

LampAnswer ask_lamp(const Powerup& answer, const Setup& setup, const SeriesLamp& lamp) {
  LampAnswer shown{lamp};
  if (auto sound = shine(answer.places.at_safe_end, setup, lamp)) shown.sound.push_back(*sound);
  if (answer.full_preset) {
    if (auto sound = shine(answer.places.at_preset, setup, lamp)) {
      sound->at_preset = true;
      shown.sound.push_back(*sound);
    }
  }
  for (std::size_t index = 0; index < answer.faults.size(); ++index) {
    const auto& fault = answer.faults[index];
    if (fault.effect != HazardEffect::hard_on) continue;
    const auto applied = circuit::apply(answer.places.at_safe_end, fault.edit);
    const auto* faulty = std::get_if<CheckedCircuit>(&applied);
    if (faulty == nullptr) continue;
    if (auto shows = shine(*faulty, setup, lamp)) {
      shows->fault = index;
      shown.hard_on.push_back(*shows);
    }
  }
  return shown;
}

std::vector<double> low_rails_of(const Setup& setup, const PowerupAsked& asked) {
  std::vector<double> steps = asked.steps;
  steps.push_back(instructive_rails);
  std::sort(steps.begin(), steps.end());
  steps.erase(std::unique(steps.begin(), steps.end()), steps.end());
  std::vector<double> rails;
  for (const double step : steps) {
    if (!may_set_at(step * setup.conditions.rails)) rails.push_back(step * setup.conditions.rails);
  }
  return rails;
}

std::variant<TrimmerPlaces, solve::NotSettled, ThermalStory> places_for(
    const Setup& setup, const std::optional<std::string>& no_preset) {
  if (no_preset) return TrimmerPlaces{setup.stage, setup.stage};
  return find_trimmer_places(setup);
}

}  // namespace

bool is_good(const Powerup& powerup) noexcept {
  const auto& trimmers = powerup.places.trimmers;
  const bool all_reached = std::all_of(
      trimmers.begin(), trimmers.end(), [](const auto& place) { return place.reached; });
  const bool was_refused = powerup.no_preset && !powerup.places.at_preset->adjustments.empty();
  return all_reached && !was_refused;
}

std::variant<Powerup, solve::NotSettled, ThermalStory> ask_powerup(const Setup& setup,
                                                                   const PowerupAsked& asked) {
  auto no_preset = why_no_preset(setup);
  auto found = places_for(setup, no_preset);
  if (auto* story = std::get_if<solve::NotSettled>(&found)) return std::move(*story);
  if (auto* story = std::get_if<ThermalStory>(&found)) return std::move(*story);
  auto& places = std::get<TrimmerPlaces>(found);
  auto outcome = solve::solve_cold(places.at_safe_end, cold_at(setup, 1.0));
  if (auto* story = std::get_if<solve::NotSettled>(&outcome)) return std::move(*story);
  Powerup answer{
      std::move(places), std::move(no_preset), std::get<solve::OperatingPoint>(std::move(outcome))};
  answer.changes = setup.changes;
  Setup low = setup;
  low.conditions.rails *= asked.steps.front();
  answer.warnings = standing_warnings(low);
  if (!answer.no_preset) {
    answer.full_preset = look_at_step(answer.places.at_preset, cold_at(setup, 1.0));
  }
  for (const double step : asked.steps) {
    answer.steps.push_back(take_step(answer, cold_at(setup, step)));
  }
  tell_what_steps_prove(answer);
  const auto& sound_full = answer.full_preset ? answer.full_preset->state : answer.full;
  answer.faults =
      find_powerup_faults(answer.full_preset ? answer.places.at_preset : answer.places.at_safe_end,
                          sound_full,
                          answer.places.at_safe_end,
                          states_of(answer.steps));
  add_limits(answer);
  if (!answer.no_preset) {
    answer.set_too_low =
        set_on_low_rails(answer.places, cold_at(setup, 1.0), low_rails_of(setup, asked));
  }
  if (asked.lamp) answer.lamp = ask_lamp(answer, setup, *asked.lamp);
  return answer;
}

}  // namespace idlepoint::answers
