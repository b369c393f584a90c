#include "answers/set_on_low_rails.hpp"

#include <utility>
#include <variant>

#include "answers/reading_values.hpp"
#include "solve/adjust.hpp"
#include "solve/solve_stage.hpp"

namespace idlepoint::answers {
namespace {

std::optional<circuit::TrackEnd> track_end_of(SafePlace place) {
  if (place == SafePlace::end_a) return circuit::TrackEnd::a;
  if (place == SafePlace::end_b) return circuit::TrackEnd::b;
  return std::nullopt;
}

std::optional<SetOnLowRails> set_one(const TrimmerPlaces& places,
                                     std::size_t index,
                                     const solve::Conditions& full,
                                     double rails) {
  const auto& place = places.trimmers[index];
  const auto alone = places.at_preset.edited(
      [&](circuit::Circuit& circuit) { circuit.adjustments = {place.adjustment}; });
  solve::Conditions low = full;
  low.heat = solve::HeatState::cold;
  low.rails = rails;
  const auto solved = solve::solve_adjustments(alone, low, {track_end_of(place.safe)});
  const auto* adjusted = std::get_if<solve::Adjusted>(&solved);
  if (adjusted == nullptr) return std::nullopt;
  const auto& probe = alone->at(place.adjustment.reading).probe;
  const auto unit = unit_of(probe);
  const auto& setting = adjusted->settings.front();
  SetOnLowRails result;
  result.trimmer = index;
  result.rails = rails;
  result.reached = setting.reached;
  result.travel = setting.travel;
  result.reading = in_own_unit(setting.reading_value, unit);
  solve::Conditions working = low;
  working.rails = full.rails;
  const auto outcome = solve::solve_cold(adjusted->circuit, working);
  if (const auto* state = std::get_if<solve::OperatingPoint>(&outcome)) {
    result.at_full_rails = in_own_unit(state->read(*adjusted->circuit, probe), unit);
  }
  return result;
}

}  // namespace

std::vector<SetOnLowRails> set_on_low_rails(const TrimmerPlaces& places,
                                            const solve::Conditions& full,
                                            const std::vector<double>& rails) {
  std::vector<SetOnLowRails> results;
  for (std::size_t index = 0; index < places.trimmers.size(); ++index) {
    if (places.trimmers[index].needs_all_parts) continue;
    for (const double fraction : rails) {
      if (auto result = set_one(places, index, full, fraction)) {
        results.push_back(std::move(*result));
      }
    }
  }
  return results;
}

}  // namespace idlepoint::answers
