#include "answers/played_loud.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>

#include "answers/node_swings.hpp"
#include "circuit/topology_graph.hpp"
#include "devices/passive.hpp"
#include "solve/solve_stage.hpp"

namespace idlepoint::answers {
namespace {

using circuit::Circuit;
using circuit::NodeId;
using circuit::PartId;

/// Of the largest rise of current: below it a part drives, it does not carry.
constexpr double shares_the_load = 0.25;
/// Of the peak current: less in the largest means that no transistor carries it.
constexpr double least_of_peak = 0.2;
/// Of the peak volts: a stage that lets its output go farther does not hold it at DC.
constexpr double held_share = 0.5;

std::string lets_go(const PlayedLoud& loud, double output_v, bool is_upper) {
  return fmt::format(
      "With {:.1f} A {} the output the drawing does not hold it near rest: it comes to {:.0f} V. "
      "Its "
      "drive runs out there, or the loop closes through a transformer. Peak currents of that half "
      "are taken as the load's.",
      loud.full.peak_a,
      is_upper ? "drawn from" : "fed into",
      output_v);
}

/// The state with the peak current, or why there is none.
std::variant<solve::OperatingPoint, std::string> with_peak(const circuit::CheckedCircuit& stage,
                                                           const PlayedLoud& loud,
                                                           Half half) {
  const NodeId output = *circuit::output_node(*stage);
  const bool is_upper = half == Half::upper;
  const auto playing = is_upper ? drawing_current(stage, output, circuit::ground, loud.full.peak_a)
                                : drawing_current(stage, circuit::ground, output, loud.full.peak_a);
  auto outcome = solve::solve_cold(playing, loud.rest.conditions());
  auto* state = std::get_if<solve::OperatingPoint>(&outcome);
  if (state == nullptr) {
    return fmt::format(
        "With {:.1f} A {} the output no state was found. Peak currents of that half "
        "are taken as the load's.",
        loud.full.peak_a,
        is_upper ? "drawn from" : "fed into");
  }
  const double output_v = state->voltage_v(output);
  const double moved_v = std::abs(output_v - loud.rest.voltage_v(output));
  if (moved_v > held_share * loud.full.peak_v) return lets_go(loud, output_v, is_upper);
  return std::move(*state);
}

std::vector<OutputPart> that_carry(const Circuit& circuit,
                                   const PlayedLoud& loud,
                                   const solve::OperatingPoint& state,
                                   Half half) {
  std::vector<OutputPart> carrying;
  double largest_a = least_of_peak / shares_the_load * loud.full.peak_a;
  for (const bool counts : {true, false}) {
    for (std::size_t index = 0; index < circuit.parts.size(); ++index) {
      const PartId id{index};
      if (!circuit::is_transistor(circuit.at(id).kind)) continue;
      const double rise_a = amps_of(circuit, id, state) - amps_of(circuit, id, loud.rest);
      if (counts) {
        largest_a = std::max(largest_a, rise_a);
      } else if (rise_a > shares_the_load * largest_a) {
        carrying.push_back({id, half, rise_a});
      }
    }
  }
  double sum_a = 0.0;
  for (const auto& one : carrying) sum_a += one.share;
  for (auto& one : carrying) one.share /= sum_a;
  return carrying;
}

/// Those between the output and the supply on their half's side, a few ohms at most at either end.
std::vector<OutputPart> that_lie_between(const Circuit& circuit,
                                         const circuit::Wiring& wiring,
                                         double mid_v,
                                         Half half) {
  std::vector<OutputPart> found;
  for (std::size_t index = 0; index < circuit.parts.size(); ++index) {
    const auto& part = circuit.parts[index];
    if (!circuit::is_transistor(part.kind) || part.damage.absent) continue;
    for (const std::size_t lead : {std::size_t{0}, std::size_t{2}}) {
      const auto* supply = circuit::supply_near(wiring, circuit::lead(part, 2 - lead));
      if (supply == nullptr || (supply->volts > mid_v) != (half == Half::upper)) continue;
      if (circuit::is_close(wiring, circuit::lead(part, lead), wiring.output)) {
        found.push_back({PartId{index}, half, 1.0});
      }
    }
  }
  for (auto& one : found) one.share /= static_cast<double>(found.size());
  return found;
}

void play_half(const circuit::CheckedCircuit& stage, PlayedLoud& loud, Half half) {
  auto outcome = with_peak(stage, loud, half);
  std::vector<OutputPart> parts;
  if (auto* state = std::get_if<solve::OperatingPoint>(&outcome)) {
    parts = that_carry(*stage, loud, *state, half);
    (half == Half::upper ? loud.gives : loud.takes) = std::move(*state);
  } else {
    const auto wiring = circuit::trace_wiring(*stage);
    parts = that_lie_between(*stage, wiring, loud.sources.mid_v(), half);
    loud.said.push_back(std::get<std::string>(outcome));
  }
  loud.output_parts.insert(loud.output_parts.end(), parts.begin(), parts.end());
}

}  // namespace

circuit::CheckedCircuit drawing_current(const circuit::CheckedCircuit& stage,
                                        NodeId from,
                                        NodeId into,
                                        double current_a) {
  circuit::Part feed;
  feed.name = "music";
  feed.kind = circuit::PartKind::feed;
  feed.leads = {from, into};
  feed.value = current_a;
  feed.details = circuit::FeedDetails{std::nullopt};
  return stage.edited([&](Circuit& circuit) { circuit.parts.push_back(std::move(feed)); });
}

double amps_of(const Circuit& circuit, PartId part, const solve::OperatingPoint& state) {
  return state.read(circuit, circuit::AmpsThrough{part});
}

std::variant<PlayedLoud, std::string> play_loud(const circuit::CheckedCircuit& stage,
                                                const solve::Conditions& conditions) {
  const auto full = full_output(*stage, conditions);
  if (!full) {
    return "Without a `load`, an output and a rail nothing can be said of the stage played loud.";
  }
  solve::Conditions at_rest = conditions;
  at_rest.load_connected = false;
  auto outcome = solve::solve_cold(stage, at_rest);
  auto* rest = std::get_if<solve::OperatingPoint>(&outcome);
  if (rest == nullptr)
    return "The stage has no cold state, so nothing can be said of it played loud.";
  auto swings = node_swings(*stage, *rest);
  PlayedLoud loud{*full, outermost_sources(*stage, conditions), std::move(*rest), {}, {}};
  loud.swings = std::move(swings);
  play_half(stage, loud, Half::upper);
  play_half(stage, loud, Half::lower);
  return loud;
}

std::optional<double> loud_watts(const Circuit& circuit, const PlayedLoud& loud, PartId id) {
  const auto& part = circuit.at(id);
  if (part.kind != circuit::PartKind::resistor || !loud.gives || !loud.takes) return std::nullopt;
  const double ohm =
      devices::resistor_resistance(part.value,
                                   std::get<circuit::ResistorDetails>(part.details).tempco_per_k,
                                   circuit.ambient_k)
          .ohm;
  if (!(ohm > 0.0)) return 0.0;
  const NodeId output = *circuit::output_node(circuit);
  const double rest_a = amps_of(circuit, id, loud.rest);
  const double rest_v = loud.rest.voltage_v(output);
  const double swing_s = swing_across(loud.swings, part, 0, 1) / ohm;
  // What a solve has moved the output by itself is part of the way to the top of the sine.
  const auto step_a = [&](const solve::OperatingPoint& top, double peak_v) {
    return amps_of(circuit, id, top) - rest_a +
           swing_s * (peak_v - (top.voltage_v(output) - rest_v));
  };
  const double up_a = step_a(*loud.gives, loud.full.peak_v);
  const double down_a = step_a(*loud.takes, -loud.full.peak_v);
  return ohm * (rest_a * rest_a + 2.0 * rest_a * (up_a + down_a) / std::numbers::pi +
                0.25 * (up_a * up_a + down_a * down_a));
}

}  // namespace idlepoint::answers
