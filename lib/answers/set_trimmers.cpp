#include "answers/set_trimmers.hpp"

#include <fmt/format.h>

#include <utility>

#include "solve/solve_stage.hpp"

namespace idlepoint::answers {
namespace {

using SetOrStory = std::variant<SetTrimmers, solve::NotSettled, solve::ThermalTrouble>;

// 95 % written as a decimal fraction need not be the nearest double to 0.95.
constexpr double rounding = 1e-9;

SetOrStory set_from(const Setup& setup, const solve::SafeEnds& ends) {
  auto solved = solve::solve_adjustments(setup.stage, setup.conditions, ends);
  if (auto* story = std::get_if<solve::NotSettled>(&solved)) return std::move(*story);
  if (const auto* trouble = std::get_if<solve::ThermalTrouble>(&solved)) return *trouble;
  auto& adjusted = std::get<solve::Adjusted>(solved);
  auto outcome = solve::solve_cold(adjusted.circuit, setup.conditions);
  if (auto* story = std::get_if<solve::NotSettled>(&outcome)) return std::move(*story);
  SetTrimmers set{std::move(adjusted), std::get<solve::OperatingPoint>(std::move(outcome)), {}};
  for (const auto& adjustment : set.adjusted.circuit->adjustments) {
    set.states.push_back(find_trimmer_states(set.adjusted.circuit, set.cold, adjustment));
  }
  return set;
}

solve::SafeEnds safe_ends_of(const std::vector<TrimmerStates>& states) {
  solve::SafeEnds ends;
  for (const auto& state : states) ends.push_back(state.safe_end);
  return ends;
}

// Coming from the second end the first position met may be another than the one found from the
// first end; where the target has one position only, the two are the same.
bool must_solve_from_safe_ends(const solve::Adjusted& adjusted, const solve::SafeEnds& ends) {
  for (std::size_t index = 0; index < ends.size(); ++index) {
    if (ends[index] == circuit::TrackEnd::b && !adjusted.settings[index].other_travels.empty()) {
      return true;
    }
  }
  return false;
}

}  // namespace

bool are_rails_too_low(const Setup& setup) noexcept {
  return setup.conditions.rails < lowest_rails_for_a_preset - rounding;
}

std::optional<std::string> why_no_preset(const Setup& setup) {
  if (are_rails_too_low(setup)) {
    return fmt::format(
        "With the rails at {:.0f} % no preset is given. The current through the bias parts "
        "usually falls with the rails, so that a trimmer set for the wanted reading there can "
        "stand "
        "far too high when the full volts arrive. Set it at 95 % of the rails or more.",
        setup.conditions.rails * 100.0);
  }
  if (setup.stage->adjustments.empty()) {
    return "The file has no `adjust` statement, so there is nothing to set.";
  }
  for (const auto& adjustment : setup.stage->adjustments) {
    const auto& trimmer = setup.stage->at(adjustment.trimmer);
    if (trimmer.damage.absent) return fmt::format("{} is taken out.", trimmer.name);
    if (trimmer.damage.wiper_open) return fmt::format("The wiper of {} is lifted.", trimmer.name);
  }
  return std::nullopt;
}

SetOrStory set_trimmers(const Setup& setup) {
  const std::size_t count = setup.stage->adjustments.size();
  auto set = set_from(setup, solve::SafeEnds(count, std::nullopt));
  if (const auto* found = std::get_if<SetTrimmers>(&set)) {
    const auto ends = safe_ends_of(found->states);
    if (must_solve_from_safe_ends(found->adjusted, ends)) set = set_from(setup, ends);
  }
  return set;
}

}  // namespace idlepoint::answers
