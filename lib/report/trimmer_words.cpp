#include "report/trimmer_words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "answers/trimmer_places.hpp"
#include "report/figures.hpp"
#include "report/one_or_both.hpp"
#include "report/poweroff_words.hpp"
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

std::string spare_in_words(const circuit::Part& trimmer) {
  switch (track_of(trimmer).spare) {
    case SpareLeg::tied:
      return ", spare leg tied to the wiper";
    case SpareLeg::free:
      return ", spare leg free";
    case SpareLeg::unknown:
      return ", spare leg not stated";
    case SpareLeg::none:
      break;
  }
  return is_variable_resistor(trimmer) ? ", spare leg tied to the wiper" : "";
}

std::string rotation_to(const circuit::TrimmerDetails& track, TrackEnd end) {
  if (!track.clockwise) return {};
  return *track.clockwise == end ? ", fully clockwise" : ", fully anticlockwise";
}

// "a meter from x2 to lo reads 1R with VR2 out of circuit, in circuit no more than that".
std::string ohms_at_end(const Circuit& circuit, const circuit::Part& trimmer, TrackEnd end) {
  const auto ohms = answers::ohms_at(trimmer, end == TrackEnd::a ? 0.0 : 1.0);
  const bool is_rheostat = is_variable_resistor(trimmer);
  const std::size_t far_lead = is_rheostat || end == TrackEnd::a ? 0 : 2;
  const auto& shown = far_lead == 0 ? ohms.a_to_wiper_ohm : ohms.wiper_to_b_ohm;
  return fmt::format(
      "a meter from {} to {} reads {} with {} out of circuit, in circuit that or less",
      leg_in_words(circuit, trimmer, far_lead),
      is_rheostat ? leg_in_words(circuit, trimmer, 1) : std::string("the wiper"),
      ohms_or_unknown(shown),
      trimmer.name);
}

std::string travel_in_words(const Circuit& circuit, const circuit::Part& trimmer, double travel) {
  if (is_variable_resistor(trimmer)) return values::format_ohms(travel * trimmer.value);
  return fmt::format("{} of the way from {}", percent(travel), leg_in_words(circuit, trimmer, 0));
}

std::string safe_end_in_words(const Circuit& circuit, const circuit::Part& trimmer, TrackEnd end) {
  std::string where = end_in_words(circuit, trimmer, end);
  if (is_variable_resistor(trimmer) && end == TrackEnd::b) where += ", the whole track";
  return fmt::format("SAFE END: {}{}. Set it there first, power off: {}.",
                     where,
                     rotation_to(track_of(trimmer), end),
                     ohms_at_end(circuit, trimmer, end));
}

// "From 0R to about 60R it hardly moves. Near the place, ": only where that is a good part of the
// way.
std::string asleep(const Circuit& circuit, const TrimmerAnswer& answer) {
  constexpr double worth_saying = 0.3;
  const auto& states = answer.states;
  if (!states.safe_end || !states.wakes_at) return "There, ";
  const double end_travel = *states.safe_end == TrackEnd::a ? 0.0 : 1.0;
  const double way = std::abs(answer.travel - end_travel);
  if (std::abs(*states.wakes_at - end_travel) < worth_saying * way) return "There, ";
  const auto& trimmer = circuit.at(answer.trimmer);
  return fmt::format("From {} to {} it hardly moves. Near the place it does: ",
                     end_in_words(circuit, trimmer, *states.safe_end),
                     is_variable_resistor(trimmer)
                         ? values::format_ohms(*states.wakes_at * trimmer.value, 2)
                         : travel_in_words(circuit, trimmer, *states.wakes_at));
}

std::string first_minute(const TrimmerAnswer& answer, const std::string& warm) {
  const std::string cold = figure(*answer.cold_value, answer.unit);
  if (cold == warm) return "In the first minute it reads the same.";
  const bool is_worth_a_word = std::abs(*answer.cold_value - answer.value) > answer.within;
  return fmt::format("In the first minute the same setting reads {}{}.",
                     cold,
                     is_worth_a_word ? ": do not chase it" : "");
}

// ", 19 stages in 20 between 80R and 139R": where the track leaves room for both ends.
std::string place_band(const Circuit& circuit, const TrimmerAnswer& answer) {
  if (!answer.travel_band) return {};
  const auto& trimmer = circuit.at(answer.trimmer);
  const double low = answer.travel_band->low;
  const double high = answer.travel_band->high;
  if (low <= 0.0 && high >= 1.0) return ", though a sound stage may want any place on the track";
  const auto place = [&](double travel) {
    return is_variable_resistor(trimmer) ? values::format_ohms(travel * trimmer.value, 2)
                                         : percent(travel);
  };
  if (place(low) == place(high)) return {};
  return fmt::format(", 19 sound stages in 20 between {} and {}", place(low), place(high));
}

}  // namespace

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
                              spare_in_words(trimmer));
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
  if (answers::safe_place_of(states) == answers::SafePlace::at_preset) {
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
  std::string text = "Expect to finish near ";
  if (is_variable_resistor(trimmer)) {
    text += fmt::format("{} of the {} track, {} of the way{}; out of circuit a meter reads {}.",
                        values::format_ohms(answer.travel * trimmer.value),
                        values::format_ohms(trimmer.value),
                        percent(answer.travel),
                        place_band(circuit, answer),
                        ohms_or_unknown(answer.ohms.a_to_wiper_ohm));
  } else {
    text += fmt::format(
        "{} of the way from {}{}; out of circuit a meter reads {} from the wiper to {} "
        "and {} to {}.",
        percent(answer.travel),
        leg_in_words(circuit, trimmer, 0),
        place_band(circuit, answer),
        ohms_or_unknown(answer.ohms.a_to_wiper_ohm),
        leg_in_words(circuit, trimmer, 0),
        ohms_or_unknown(answer.ohms.wiper_to_b_ohm),
        leg_in_words(circuit, trimmer, 2));
  }
  const std::string& name = circuit.at(answer.reading).name;
  if (!answer.cold_value) return text + fmt::format(" There `{}` reads {}.", name, value);
  return text +
         fmt::format(
             " There `{}` reads {} warmed through. {}", name, value, first_minute(answer, value));
}

std::string found_in_circuit(const Circuit& circuit, const TrimmerAnswer& answer) {
  const auto& found = answer.in_circuit;
  if (found.at_preset.empty()) return {};
  std::string text = fmt::format("In circuit, power off and nothing lifted, {} there",
                                 all_legs_in_words(circuit, found.at_preset));
  if (!found.at_safe_end.empty()) {
    text += fmt::format("; at the safe end {}", all_legs_in_words(circuit, found.at_safe_end));
  }
  return text + ".";
}

std::string place_in_words(const Circuit& circuit, const TrimmerAnswer& answer) {
  const auto& trimmer = circuit.at(answer.trimmer);
  const bool in_ohms = is_variable_resistor(trimmer);
  const auto place = [&](double travel, int digits) {
    return in_ohms ? values::format_ohms(travel * trimmer.value, digits) : percent(travel);
  };
  std::string text = place(answer.travel, 3);
  if (!in_ohms) text += " from " + leg_in_words(circuit, trimmer, 0);
  if (!answer.travel_band) return text;
  return text + fmt::format(" ({} to {})",
                            place(std::max(answer.travel_band->low, 0.0), 2),
                            place(std::min(answer.travel_band->high, 1.0), 2));
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
  std::string text = fmt::format("{}{} {} it by {}",
                                 asleep(circuit, answer),
                                 more,
                                 per_percent < 0.0 ? "lowers" : "raises",
                                 step(std::abs(per_percent), answer.unit));
  if (track.turns != 1.0) {
    text += fmt::format(", a whole turn by about {}",
                        step(std::abs(answer.slope_per_travel / track.turns), answer.unit));
  }
  return text + (answer.cold_value ? ", once it has warmed through." : ".");
}

std::string places_between(const Circuit& circuit,
                           const circuit::Part& trimmer,
                           double low_travel,
                           double high_travel) {
  return fmt::format("between {} and {} of the way from {}",
                     percent(low_travel),
                     percent(high_travel),
                     leg_in_words(circuit, trimmer, 0));
}

}  // namespace idlepoint::report
