#include "answers/trimmer_states.hpp"

#include <algorithm>
#include <cmath>
#include <variant>

#include "answers/hazards.hpp"
#include "circuit/edits.hpp"
#include "solve/solve_stage.hpp"

namespace idlepoint::answers {
namespace {

using circuit::CheckedCircuit;
using circuit::SpareLeg;

constexpr double power_that_tells_ends_apart = 0.05;

const circuit::TrimmerDetails& details(const circuit::Part& trimmer) {
  return std::get<circuit::TrimmerDetails>(trimmer.details);
}

std::vector<std::string> over_stressed_parts(const circuit::Circuit& circuit,
                                             const solve::OperatingPoint& state) {
  std::vector<std::string> names;
  for (std::size_t index = 0; index < circuit.parts.size(); ++index) {
    if (state.part(circuit::PartId{index}).over_stressed)
      names.push_back(circuit.parts[index].name);
  }
  return names;
}

bool is_at_rail(OutputPlace place) {
  return place == OutputPlace::at_low_rail || place == OutputPlace::at_high_rail;
}

TrimmerState look_at(const CheckedCircuit& stage,
                     const solve::OperatingPoint& at_preset,
                     const circuit::Adjustment& adjustment) {
  const auto outcome = solve::solve_cold(stage, at_preset.conditions());
  const auto* state = std::get_if<solve::OperatingPoint>(&outcome);
  if (state == nullptr) return {};
  const auto& probe = stage->at(adjustment.reading).probe;
  TrimmerState found;
  found.solved = true;
  found.reading = in_own_unit(state->read(*stage, probe), unit_of(probe));
  found.total_power_w = state->total_power_w();
  if (at_preset.total_power_w() > 0.0) {
    found.times_preset_power = *found.total_power_w / at_preset.total_power_w();
  }
  found.output = output_place(*stage, *state);
  if (const auto output = circuit::output_node(*stage)) {
    found.output_v = state->voltage_v(*output);
    found.output_moves_v = *found.output_v - at_preset.voltage_v(*output);
  }
  found.over_stressed = over_stressed_parts(*stage, *state);
  found.hazard =
      is_at_rail(found.output) || *found.total_power_w > hard_on_power * at_preset.total_power_w();
  return found;
}

CheckedCircuit with_travel(const CheckedCircuit& stage, circuit::PartId trimmer, double travel) {
  return stage.edited([&](circuit::Circuit& circuit) {
    std::get<circuit::TrimmerDetails>(circuit.at(trimmer).details).travel = travel;
  });
}

CheckedCircuit with_lifted_wiper(const CheckedCircuit& stage, circuit::PartId trimmer) {
  return stage.edited(
      [&](circuit::Circuit& circuit) { circuit.at(trimmer).damage.wiper_open = true; });
}

// The third leg of a two-legged trimmer: on the wiper's joint, or in the air.
CheckedCircuit with_spare(const CheckedCircuit& stage, circuit::PartId trimmer, SpareLeg spare) {
  return stage.edited([&](circuit::Circuit& circuit) {
    auto& part = circuit.at(trimmer);
    std::get<circuit::TrimmerDetails>(part.details).spare = spare;
    part.leads.at(2) = spare == SpareLeg::tied ? part.leads.at(1) : std::nullopt;
  });
}

bool is_worse(const TrimmerState& one, const TrimmerState& other) {
  if (one.solved != other.solved) return !one.solved;
  if (one.hazard != other.hazard) return one.hazard;
  return one.solved && *one.total_power_w > *other.total_power_w;
}

std::optional<circuit::TrackEnd> safer_end(const TrimmerState& a, const TrimmerState& b) {
  if (!a.solved && !b.solved) return std::nullopt;
  if (!a.solved) return circuit::TrackEnd::b;
  if (!b.solved) return circuit::TrackEnd::a;
  const double larger_w = std::max(std::abs(*a.total_power_w), std::abs(*b.total_power_w));
  const double difference_w = *a.total_power_w - *b.total_power_w;
  if (std::abs(difference_w) < power_that_tells_ends_apart * larger_w) return std::nullopt;
  if (difference_w == 0.0) return std::nullopt;
  return difference_w < 0.0 ? circuit::TrackEnd::a : circuit::TrackEnd::b;
}

// Steps from the safe end towards the preset until the reading has made a tenth of its way.
std::optional<double> find_wake(const CheckedCircuit& stage,
                                const solve::OperatingPoint& at_preset,
                                const circuit::Adjustment& adjustment,
                                circuit::TrackEnd safe_end) {
  constexpr int steps = 20;
  constexpr double share_of_the_way = 0.1;
  const auto& probe = stage->at(adjustment.reading).probe;
  const double preset_travel = details(stage->at(adjustment.trimmer)).travel;
  const double end_travel = safe_end == circuit::TrackEnd::a ? 0.0 : 1.0;
  const auto read_at = [&](double travel) -> std::optional<double> {
    const auto moved = with_travel(stage, adjustment.trimmer, travel);
    const auto outcome = solve::solve_cold(moved, at_preset.conditions());
    const auto* state = std::get_if<solve::OperatingPoint>(&outcome);
    if (state == nullptr) return std::nullopt;
    return state->read(*moved, probe);
  };
  const auto at_end = read_at(end_travel);
  if (!at_end || preset_travel == end_travel) return std::nullopt;
  const double whole_way = std::abs(at_preset.read(*stage, probe) - *at_end);
  double asleep_until = end_travel;
  for (int step = 1; step <= steps; ++step) {
    const double travel = end_travel + (preset_travel - end_travel) * step / steps;
    const auto value = read_at(travel);
    if (!value || std::abs(*value - *at_end) >= share_of_the_way * whole_way) break;
    asleep_until = travel;
  }
  return asleep_until;
}

void lift_wiper(const CheckedCircuit& stage,
                const solve::OperatingPoint& at_preset,
                const circuit::Adjustment& adjustment,
                TrimmerStates& states) {
  const auto lifted = [&](const CheckedCircuit& wired) {
    return look_at(with_lifted_wiper(wired, adjustment.trimmer), at_preset, adjustment);
  };
  if (details(stage->at(adjustment.trimmer)).spare != SpareLeg::unknown) {
    states.wiper_open = lifted(stage);
    return;
  }
  states.wiper_open_tied = lifted(with_spare(stage, adjustment.trimmer, SpareLeg::tied));
  states.wiper_open_free = lifted(with_spare(stage, adjustment.trimmer, SpareLeg::free));
  states.wiper_open = is_worse(*states.wiper_open_tied, *states.wiper_open_free)
                          ? *states.wiper_open_tied
                          : *states.wiper_open_free;
}

}  // namespace

TrackOhms ohms_at(const circuit::Part& trimmer, double travel) noexcept {
  if (trimmer.damage.wiper_open) return {};
  const auto* track = std::get_if<circuit::TrimmerDetails>(&trimmer.details);
  if (track == nullptr) return {};
  const double both_ohm = track->end_resistance_ohm + track->wiper_resistance_ohm;
  return {travel * trimmer.value + both_ohm, (1.0 - travel) * trimmer.value + both_ohm};
}

TrimmerStates find_trimmer_states(const CheckedCircuit& stage,
                                  const solve::OperatingPoint& at_preset,
                                  const circuit::Adjustment& adjustment) {
  const auto at = [&](double travel) {
    return look_at(with_travel(stage, adjustment.trimmer, travel), at_preset, adjustment);
  };
  TrimmerStates states;
  states.at_a = at(0.0);
  states.at_b = at(1.0);
  states.half_way = at(0.5);
  states.safe_end = safer_end(states.at_a, states.at_b);
  if (states.safe_end) {
    states.wakes_at = find_wake(stage, at_preset, adjustment, *states.safe_end);
  }
  lift_wiper(stage, at_preset, adjustment, states);
  return states;
}

}  // namespace idlepoint::answers
