#include "report/trimmer_states_words.hpp"

#include <fmt/format.h>

#include <cmath>

#include "report/figures.hpp"
#include "report/trimmer_words.hpp"
#include "report/words.hpp"

namespace idlepoint::report {
namespace {

using answers::OutputPlace;
using answers::TrimmerAnswer;
using answers::TrimmerState;
using circuit::Circuit;
using circuit::TrackEnd;

bool is_at_rail(const TrimmerState& state) {
  return state.output == OutputPlace::at_low_rail || state.output == OutputPlace::at_high_rail;
}

// Far enough to push a loudspeaker's cone out and hold it there.
bool has_moved_output(const TrimmerState& state) {
  constexpr double far_v = 1.0;
  return state.output_v && std::abs(state.output_moves_v) > far_v;
}

// The name of the outermost rail on that side, or gnd where it counts as one.
std::string rail_name(const Circuit& circuit, bool high) {
  std::string name = "gnd";
  double outermost_v = 0.0;
  for (const auto& rail : circuit.rails) {
    if (high ? rail.nominal_v > outermost_v : rail.nominal_v < outermost_v) {
      outermost_v = rail.nominal_v;
      name = circuit.at(rail.node).name;
    }
  }
  return name;
}

// Nothing where the reading is the output itself, and has been said.
std::string output_in_words(const Circuit& circuit,
                            const TrimmerAnswer& answer,
                            const TrimmerState& state) {
  const bool at_rail = is_at_rail(state);
  if (!at_rail && !has_moved_output(state)) return {};
  const std::string rail = rail_name(circuit, state.output == OutputPlace::at_high_rail);
  const auto* points = std::get_if<circuit::VoltsBetween>(&circuit.at(answer.reading).probe);
  const bool is_the_reading = points != nullptr && points->b == circuit::ground &&
                              points->a == circuit::output_node(circuit);
  if (is_the_reading) return at_rail ? ", which is at " + rail : "";
  return ", the output at " + (at_rail ? rail : volts(*state.output_v));
}

// "850 mV, 115 W from the rails (54 times the preset's), the output at vpos, Q6 beyond its
// ratings".
std::string state_in_words(const Circuit& circuit,
                           const TrimmerAnswer& answer,
                           const TrimmerState& state) {
  if (!state.solved) return "no DC state is found";
  std::string text = fmt::format(
      "{}, {} from the rails", figure(*state.reading, answer.unit), watts(*state.total_power_w));
  if (state.times_preset_power && *state.times_preset_power > 1.5) {
    text += fmt::format(" ({:.{}f} times the preset's)",
                        *state.times_preset_power,
                        *state.times_preset_power < 9.95 ? 1 : 0);
  }
  text += output_in_words(circuit, answer, state);
  if (!state.over_stressed.empty()) {
    text += fmt::format(", {} beyond {} ratings",
                        list_in_words(state.over_stressed),
                        state.over_stressed.size() == 1 ? "its" : "their");
  }
  return text;
}

std::string end_state(const Circuit& circuit, const TrimmerAnswer& answer, TrackEnd end) {
  const auto& state = end == TrackEnd::a ? answer.states.at_a : answer.states.at_b;
  std::string text = fmt::format("At {}: {}.",
                                 end_in_words(circuit, circuit.at(answer.trimmer), end),
                                 state_in_words(circuit, answer, state));
  if (state.hazard && answer.states.safe_end != end) text += " Stay away from that end.";
  return text;
}

std::string lifted_in_words(const Circuit& circuit,
                            const TrimmerAnswer& answer,
                            const TrimmerState& state) {
  const std::string text = state_in_words(circuit, answer, state);
  if (state.hazard) return text + ": dangerous.";
  if (has_moved_output(state)) return text + ": keep loudspeakers off.";
  if (state.times_preset_power && *state.times_preset_power < 1.0) return text + ": it fails cold.";
  return text + ".";
}

bool is_tied_better(const answers::TrimmerStates& states) {
  const auto& tied = *states.wiper_open_tied;
  const auto& free = *states.wiper_open_free;
  if (!tied.solved || !free.solved) return tied.solved;
  return *tied.total_power_w < *free.total_power_w;
}

}  // namespace

std::string both_ends(const Circuit& circuit, const TrimmerAnswer& answer) {
  const bool b_first = answer.states.safe_end == TrackEnd::b;
  return end_state(circuit, answer, b_first ? TrackEnd::b : TrackEnd::a) + " " +
         end_state(circuit, answer, b_first ? TrackEnd::a : TrackEnd::b);
}

std::string lifted_wiper(const Circuit& circuit, const TrimmerAnswer& answer) {
  const auto& states = answer.states;
  if (!states.wiper_open_tied || !states.wiper_open_free) {
    return "If the wiper lifts: " + lifted_in_words(circuit, answer, states.wiper_open);
  }
  return fmt::format(
      "If the wiper lifts, spare leg tied to it: {} Spare leg free: {} The drawing does not say "
      "which it is: look{}.",
      lifted_in_words(circuit, answer, *states.wiper_open_tied),
      lifted_in_words(circuit, answer, *states.wiper_open_free),
      is_tied_better(states) ? ", and tie it if it is free" : "");
}

}  // namespace idlepoint::report
