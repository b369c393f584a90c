#include "answers/trimmer_places.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "answers/taken_out.hpp"
#include "answers/trimmer_order.hpp"

namespace idlepoint::answers {
namespace {

using PlacesOrStory = std::variant<TrimmerPlaces, solve::NotSettled, ThermalStory>;

void turn_trimmer(circuit::Circuit& circuit, circuit::PartId trimmer, double travel) {
  std::get<circuit::TrimmerDetails>(circuit.at(trimmer).details).travel = travel;
}

// The search stops a hair before an end whose stretch of track has no resistance at all.
double found_travel(const solve::Setting& setting) {
  return setting.at_end ? std::round(setting.travel) : setting.travel;
}

std::variant<SetTrimmers, solve::NotSettled, ThermalStory> set_or_story(const Setup& setup) {
  auto set = set_trimmers(setup);
  if (auto* story = std::get_if<solve::NotSettled>(&set)) return std::move(*story);
  if (const auto* trouble = std::get_if<solve::ThermalTrouble>(&set)) {
    return tell_thermal(setup, setup.stage, *trouble);
  }
  return std::get<SetTrimmers>(std::move(set));
}

std::vector<TrimmerPlace> places_of(const circuit::Circuit& circuit, const SetTrimmers& set) {
  std::vector<TrimmerPlace> places;
  for (std::size_t index = 0; index < circuit.adjustments.size(); ++index) {
    const auto& setting = set.adjusted.settings[index];
    TrimmerPlace place{circuit.adjustments[index]};
    place.safe = safe_place_of(set.states[index]);
    place.preset_travel = found_travel(setting);
    place.safe_travel = travel_at(place.safe, place.preset_travel);
    place.reached = setting.reached;
    places.push_back(std::move(place));
  }
  return places;
}

// The trimmers that a stage with parts out can set, set in it; the others stay in their places.
std::optional<PlacesOrStory> set_the_rest(const Setup& setup,
                                          const std::vector<bool>& of_whole,
                                          std::vector<TrimmerPlace>& trimmers) {
  Setup rest = setup;
  std::vector<std::size_t> left;
  rest.stage = setup.stage.edited([&](circuit::Circuit& circuit) {
    circuit.adjustments.clear();
    for (std::size_t index = 0; index < of_whole.size(); ++index) {
      const auto& adjustment = trimmers[index].adjustment;
      if (of_whole[index]) {
        turn_trimmer(circuit, adjustment.trimmer, trimmers[index].preset_travel);
      } else {
        left.push_back(index);
        circuit.adjustments.push_back(adjustment);
      }
    }
  });
  if (left.empty()) return std::nullopt;
  auto set = set_or_story(rest);
  if (auto* story = std::get_if<solve::NotSettled>(&set)) return std::move(*story);
  if (auto* story = std::get_if<ThermalStory>(&set)) return std::move(*story);
  const auto found = places_of(*rest.stage, std::get<SetTrimmers>(set));
  for (std::size_t index = 0; index < left.size(); ++index) trimmers[left[index]] = found[index];
  return std::nullopt;
}

}  // namespace

std::string_view word(SafePlace place) noexcept {
  switch (place) {
    case SafePlace::end_a:
      return "a";
    case SafePlace::end_b:
      return "b";
    case SafePlace::half_way:
      return "half way";
    case SafePlace::at_preset:
      break;
  }
  return "preset";
}

SafePlace safe_place_of(const TrimmerStates& states) noexcept {
  if (states.safe_end) {
    return *states.safe_end == circuit::TrackEnd::a ? SafePlace::end_a : SafePlace::end_b;
  }
  constexpr double no_worse = 1.05;
  const auto& half_way = states.half_way;
  const bool is_at_rail =
      half_way.output == OutputPlace::at_low_rail || half_way.output == OutputPlace::at_high_rail;
  if (!half_way.solved || is_at_rail || !states.at_a.solved || !states.at_b.solved) {
    return SafePlace::at_preset;
  }
  const double worse_end_w = std::max(*states.at_a.total_power_w, *states.at_b.total_power_w);
  return *half_way.total_power_w <= no_worse * worse_end_w ? SafePlace::half_way
                                                           : SafePlace::at_preset;
}

double travel_at(SafePlace place, double preset_travel) noexcept {
  switch (place) {
    case SafePlace::end_a:
      return 0.0;
    case SafePlace::end_b:
      return 1.0;
    case SafePlace::half_way:
      return 0.5;
    case SafePlace::at_preset:
      break;
  }
  return preset_travel;
}

PlacesOrStory find_trimmer_places(const Setup& setup) {
  const auto of_whole = set_with_all_parts(setup.stage, setup.conditions);
  const bool needs_whole = std::find(of_whole.begin(), of_whole.end(), true) != of_whole.end();
  Setup asked = setup;
  if (needs_whole) asked.stage = with_all_parts(setup.stage);
  auto outcome = set_or_story(asked);
  if (auto* story = std::get_if<solve::NotSettled>(&outcome)) return std::move(*story);
  if (auto* story = std::get_if<ThermalStory>(&outcome)) return std::move(*story);
  const auto& set = std::get<SetTrimmers>(outcome);
  auto trimmers = places_of(*asked.stage, set);
  if (needs_whole) {
    if (auto story = set_the_rest(setup, of_whole, trimmers)) return std::move(*story);
    for (std::size_t index = 0; index < trimmers.size(); ++index) {
      trimmers[index].needs_all_parts = of_whole[index];
    }
  }
  const auto order = order_trimmers(find_disturbances(set.adjusted.circuit, set.cold));
  const auto turned = [&](double TrimmerPlace::*travel) {
    return setup.stage.edited([&](circuit::Circuit& circuit) {
      for (const auto& place : trimmers)
        turn_trimmer(circuit, place.adjustment.trimmer, place.*travel);
    });
  };
  return TrimmerPlaces{turned(&TrimmerPlace::safe_travel),
                       turned(&TrimmerPlace::preset_travel),
                       trimmers,
                       order.first_to_last};
}

}  // namespace idlepoint::answers
