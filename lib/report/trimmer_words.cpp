#include "report/trimmer_words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "report/figures.hpp"
#include "report/one_or_both.hpp"
#include "report/words.hpp"
#include "values/format.hpp"

namespace idlepoint::report {
namespace {

using answers::TrimmerAnswer;
using circuit::Circuit;
using circuit::SpareLeg;
using circuit::TrackEnd;

constexpr std::size_t bar_cells = 20;

const circuit::TrimmerDetails& track_of(const circuit::Part& trimmer) {
  return std::get<circuit::TrimmerDetails>(trimmer.details);
}

std::string leg_in_words(const Circuit& circuit, const circuit::Part& part, std::size_t lead) {
  const auto node = circuit::lead(part, lead);
  return node ? circuit::node_in_words(circuit, *node) : "nothing";
}

std::string ohms_or_unknown(const std::optional<double>& ohms) {
  return ohms ? values::format_ohms(*ohms) : "no path";
}

std::string reading_points(const Circuit& circuit, const circuit::Probe& probe) {
  const std::string resistors = resistors_in_brackets(circuit, probe);
  return probe_in_words(circuit, probe) + (resistors.empty() ? "" : " " + resistors);
}

std::string spare_in_words(SpareLeg spare) {
  switch (spare) {
    case SpareLeg::tied:
      return ", spare leg tied to the wiper";
    case SpareLeg::free:
      return ", spare leg free";
    case SpareLeg::unknown:
      return ", spare leg not stated";
    case SpareLeg::none:
      break;
  }
  return {};
}

std::string rotation_to(const circuit::TrimmerDetails& track, TrackEnd end) {
  if (!track.clockwise) return {};
  return *track.clockwise == end ? " (fully clockwise)" : " (fully anticlockwise)";
}

// What the meter finds on the trimmer alone, at an end.
std::string ohms_at_end(const Circuit& circuit, const circuit::Part& trimmer, TrackEnd end) {
  const auto ohms = answers::ohms_at(trimmer, end == TrackEnd::a ? 0.0 : 1.0);
  if (is_variable_resistor(trimmer)) {
    return fmt::format("between {} and {}, {} out of circuit, a meter finds about {}",
                       leg_in_words(circuit, trimmer, 0),
                       leg_in_words(circuit, trimmer, 1),
                       trimmer.name,
                       ohms_or_unknown(ohms.a_to_wiper_ohm));
  }
  return fmt::format(
      "{} out of circuit, a meter finds about {} from wiper to {}",
      trimmer.name,
      ohms_or_unknown(end == TrackEnd::a ? ohms.a_to_wiper_ohm : ohms.wiper_to_b_ohm),
      leg_in_words(circuit, trimmer, end == TrackEnd::a ? 0 : 2));
}

std::string travel_in_words(const Circuit& circuit, const circuit::Part& trimmer, double travel) {
  if (is_variable_resistor(trimmer)) return values::format_ohms(travel * trimmer.value);
  return fmt::format("{} of the way from {}", percent(travel), leg_in_words(circuit, trimmer, 0));
}

bool is_at_rail(const answers::TrimmerState& state) {
  return state.output == answers::OutputPlace::at_low_rail ||
         state.output == answers::OutputPlace::at_high_rail;
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

// "850 mV, 115 W from the rails, output at vpos, Q6 and Q7 beyond their ratings".
std::string state_in_words(const Circuit& circuit,
                           const TrimmerAnswer& answer,
                           const answers::TrimmerState& state) {
  if (!state.solved) return "no DC state is found";
  std::string text = fmt::format(
      "{}, {} from the rails", figure(*state.reading, answer.unit), watts(*state.total_power_w));
  if (is_at_rail(state)) {
    text +=
        ", the output at " + rail_name(circuit, state.output == answers::OutputPlace::at_high_rail);
  }
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

std::string safe_end_in_words(const Circuit& circuit, const circuit::Part& trimmer, TrackEnd end) {
  const std::string where = is_variable_resistor(trimmer)
                                ? (end == TrackEnd::a ? ", no resistance" : ", all of the track")
                                : "";
  std::string text = fmt::format("SAFE END: {}{}{}. Set it there first, power off: {}.",
                                 end_in_words(circuit, trimmer, end),
                                 where,
                                 rotation_to(track_of(trimmer), end),
                                 ohms_at_end(circuit, trimmer, end));
  return text + " In circuit the parts around it can only make that less.";
}

bool half_way_is_no_worse(const answers::TrimmerStates& states) {
  if (!states.half_way.solved || is_at_rail(states.half_way)) return false;
  if (!states.at_a.solved || !states.at_b.solved) return false;
  return *states.half_way.total_power_w <=
         1.05 * std::max(*states.at_a.total_power_w, *states.at_b.total_power_w);
}

std::string lifted_in_words(const Circuit& circuit,
                            const TrimmerAnswer& answer,
                            const answers::TrimmerState& state) {
  return state_in_words(circuit, answer, state) + (state.hazard ? ": dangerous." : ": no danger.");
}

}  // namespace

bool is_variable_resistor(const circuit::Part& trimmer) {
  return track_of(trimmer).spare != SpareLeg::none;
}

std::string end_in_words(const Circuit& circuit, const circuit::Part& trimmer, TrackEnd end) {
  if (is_variable_resistor(trimmer)) {
    return values::format_ohms(end == TrackEnd::a ? 0.0 : trimmer.value);
  }
  return "the " + leg_in_words(circuit, trimmer, end == TrackEnd::a ? 0 : 2) + " end";
}

std::string trimmer_heading(const Circuit& circuit, const TrimmerAnswer& answer) {
  const auto& trimmer = circuit.at(answer.trimmer);
  const auto& reading = circuit.at(answer.reading);
  std::string text = fmt::format("{} sets `{}`, {}, to {}. ",
                                 trimmer.name,
                                 reading.name,
                                 reading_points(circuit, reading.probe),
                                 as_written(answer.target, answer.unit));
  if (is_variable_resistor(trimmer)) {
    return text + fmt::format("{}, used as a variable resistor between {} and {}{}.",
                              values::format_ohms(trimmer.value),
                              leg_in_words(circuit, trimmer, 0),
                              leg_in_words(circuit, trimmer, 1),
                              spare_in_words(track_of(trimmer).spare));
  }
  return text + fmt::format("{} from {} to {}, the wiper on {}.",
                            values::format_ohms(trimmer.value),
                            leg_in_words(circuit, trimmer, 0),
                            leg_in_words(circuit, trimmer, 2),
                            leg_in_words(circuit, trimmer, 1));
}

std::string safe_place(const Circuit& circuit, const TrimmerAnswer& answer) {
  const auto& trimmer = circuit.at(answer.trimmer);
  const auto& states = answer.states;
  if (states.safe_end) return safe_end_in_words(circuit, trimmer, *states.safe_end);
  if (!half_way_is_no_worse(states)) {
    return "SAFE PLACE: the figures show none, neither an end nor half way. Set it where it is "
           "expected, and bring the rails up with the current limited.";
  }
  return fmt::format(
      "SAFE PLACE: half way, where `{}` reads {}. The rails deliver much the same at either end, "
      "so "
      "neither is the safe one.",
      circuit.at(answer.reading).name,
      figure(*states.half_way.reading, answer.unit));
}

std::string expected_place(const Circuit& circuit, const TrimmerAnswer& answer) {
  const auto& trimmer = circuit.at(answer.trimmer);
  const std::string value = figure(answer.value, answer.unit);
  if (!answer.reached) {
    const bool at_end = answer.travel <= 0.0 || answer.travel >= 1.0;
    const TrackEnd end = answer.travel < 0.5 ? TrackEnd::a : TrackEnd::b;
    return fmt::format("Out of reach: the nearest it comes is {}, at {}.",
                       value,
                       at_end ? end_in_words(circuit, trimmer, end)
                              : travel_in_words(circuit, trimmer, answer.travel));
  }
  if (is_variable_resistor(trimmer)) {
    return fmt::format("Expect to finish near {} of the {} ({} on a meter, {} out of circuit): {}.",
                       values::format_ohms(answer.travel * trimmer.value),
                       values::format_ohms(trimmer.value),
                       ohms_or_unknown(answer.ohms.a_to_wiper_ohm),
                       trimmer.name,
                       value);
  }
  return fmt::format(
      "Expect to finish {} of the way from {} ({} out of circuit: {} from wiper to {}, {} to {}): "
      "{}.",
      percent(answer.travel),
      leg_in_words(circuit, trimmer, 0),
      trimmer.name,
      ohms_or_unknown(answer.ohms.a_to_wiper_ohm),
      leg_in_words(circuit, trimmer, 0),
      ohms_or_unknown(answer.ohms.wiper_to_b_ohm),
      leg_in_words(circuit, trimmer, 2),
      value);
}

std::string other_places(const Circuit& circuit, const TrimmerAnswer& answer) {
  if (answer.other_travels.empty()) return {};
  std::vector<std::string> places;
  for (const double travel : answer.other_travels) {
    places.push_back(travel_in_words(circuit, circuit.at(answer.trimmer), travel));
  }
  return fmt::format("`{}` has the same value at {} too; the place above is met first.",
                     circuit.at(answer.reading).name,
                     list_in_words(places));
}

std::string travel_bar(const Circuit& circuit, const TrimmerAnswer& answer) {
  const auto& trimmer = circuit.at(answer.trimmer);
  const double clamped = std::clamp(answer.travel, 0.0, 1.0);
  const auto filled = static_cast<std::size_t>(std::lround(clamped * double{bar_cells}));
  const auto label = [&](TrackEnd end) {
    if (is_variable_resistor(trimmer)) return end_in_words(circuit, trimmer, end);
    return leg_in_words(circuit, trimmer, end == TrackEnd::a ? 0 : 2);
  };
  return fmt::format("{} [{}|{}] {}",
                     label(TrackEnd::a),
                     std::string(filled, '='),
                     std::string(bar_cells - filled, '-'),
                     label(TrackEnd::b));
}

std::string how_fast(const Circuit& circuit, const TrimmerAnswer& answer) {
  if (!answer.reached) return {};
  const auto& trimmer = circuit.at(answer.trimmer);
  const auto& track = track_of(trimmer);
  const double per_percent = answer.slope_per_travel / 100.0;
  const std::string more =
      is_variable_resistor(trimmer)
          ? fmt::format("1 % of the track ({}) more", values::format_ohms(trimmer.value / 100.0))
          : fmt::format("1 % of the track away from {}", leg_in_words(circuit, trimmer, 0));
  std::string text = fmt::format("There, {} {} it by {}",
                                 more,
                                 per_percent < 0.0 ? "lowers" : "raises",
                                 step(std::abs(per_percent), answer.unit));
  if (track.turns != 1.0) {
    text += fmt::format(", a whole turn by about {}",
                        step(std::abs(answer.slope_per_travel / track.turns), answer.unit));
  }
  return text + ".";
}

std::string both_ends(const Circuit& circuit, const TrimmerAnswer& answer) {
  return end_state(circuit, answer, TrackEnd::a) + " " + end_state(circuit, answer, TrackEnd::b);
}

std::string lifted_wiper(const Circuit& circuit, const TrimmerAnswer& answer) {
  const auto& states = answer.states;
  if (!states.wiper_open_tied || !states.wiper_open_free) {
    return "If the wiper lifts: " + lifted_in_words(circuit, answer, states.wiper_open);
  }
  std::string text = fmt::format(
      "If the wiper lifts, spare leg tied to it: {} Spare leg free: {} The drawing does not say "
      "which it is: look",
      lifted_in_words(circuit, answer, *states.wiper_open_tied),
      lifted_in_words(circuit, answer, *states.wiper_open_free));
  const bool tied_is_better =
      states.wiper_open_tied->solved &&
      (!states.wiper_open_free->solved ||
       *states.wiper_open_tied->total_power_w < *states.wiper_open_free->total_power_w);
  return text + (tied_is_better ? ", and tie it if it is free." : ".");
}

}  // namespace idlepoint::report
