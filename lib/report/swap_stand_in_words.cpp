// A stand-in beside the part it replaces, in words. Declared in report/swap_topics.hpp.

#include <fmt/format.h>

#include <cmath>

#include "report/figures.hpp"
#include "report/swap_topics.hpp"
#include "report/words.hpp"

namespace idlepoint::report {
namespace {

using answers::StandInTest;
using answers::Swap;
using answers::Swapped;

std::string per_degree(double volts_per_k) { return fmt::format("{:.1f} mV", 1e3 * volts_per_k); }

std::string volts_sentence(const Swap& swap, const Swapped& swapped, const StandInTest& test) {
  return fmt::format("{} carries {} and holds {} at that; {} in its place holds {}.",
                     swap.stage->at(swapped.part).name,
                     amps(test.amps),
                     volts(test.old_v),
                     swapped.to,
                     volts(test.new_v));
}

std::string in_place_sentence(const Swapped& swapped, const StandInTest& test) {
  if (!test.amps_in_place) return {};
  if (!answers::is_left_idle(swapped)) return {};
  return fmt::format("Where it stands it carries no more than {}: it is as good as left out.",
                     amps(*test.amps_in_place));
}

std::string degrees_sentence(const StandInTest& test) {
  const std::string degrees = fmt::format("For each degree of its own it gives {}, the old one {}",
                                          per_degree(test.new_v_per_k),
                                          per_degree(test.old_v_per_k));
  if (!test.needed_v_per_k) return degrees + ".";
  const std::string needed = fmt::format(
      "to keep the standing current still, this place alone would have to give {} for "
      "each degree of the heat sink",
      per_degree(*test.needed_v_per_k));
  if (test.coupling == 0.0) {
    return fmt::format(
        "{}; {}, and off the heat sink it gives none of that, as the old one did "
        "not.",
        degrees,
        needed);
  }
  if (test.coupling == 1.0) return fmt::format("{}; {}.", degrees, needed);
  return fmt::format("{}; {}, of whose rise it feels {}.", degrees, needed, percent(test.coupling));
}

// The loop gain is the measure of it: volts and degrees of one place are not the whole string.
std::string tracking_sentence(const Swap& swap) {
  if (!swap.loop_gain_before || !swap.loop_gain_after) return {};
  constexpr double alike = 0.02;
  const double step = *swap.loop_gain_after - *swap.loop_gain_before;
  if (std::abs(step) < alike) return "Set anew, the stage as a whole tracks as it did.";
  return step < 0.0 ? "Set anew, the stage as a whole tracks better than before."
                    : "Set anew, the stage as a whole tracks worse than before: see Warming.";
}

std::string range_sentence(const Swap& swap) {
  const auto* preset = answers::preset_of(swap.after);
  if (preset == nullptr) return {};
  Sentences said;
  for (const auto& answer : preset->adjustments) {
    if (!answer.states.at_a.reading || !answer.states.at_b.reading) continue;
    said.add(fmt::format("{} from end to end then takes `{}` from {} to {}, just switched on.",
                         preset->stage->at(answer.trimmer).name,
                         preset->stage->at(answer.reading).name,
                         figure(*answer.states.at_a.reading, answer.unit),
                         figure(*answer.states.at_b.reading, answer.unit)));
  }
  return said.text();
}

}  // namespace

std::string stand_in_words(const Swap& swap) {
  Sentences said;
  bool any = false;
  bool any_on_the_sink = false;
  bool any_resistor = false;
  for (const auto& swapped : swap.swaps) {
    if (!answers::is_stand_in(swapped)) continue;
    any = true;
    const bool is_resistor = !swap.stage->at(swapped.now.front()).type;
    any_resistor = any_resistor || is_resistor;
    any_on_the_sink = any_on_the_sink || !is_resistor;
    if (!swapped.stand_in) {
      said.add(fmt::format("{} and {} could not be tested side by side.",
                           swap.stage->at(swapped.part).name,
                           swapped.to));
      continue;
    }
    said.add(volts_sentence(swap, swapped, *swapped.stand_in));
    said.add(in_place_sentence(swapped, *swapped.stand_in));
    said.add(degrees_sentence(*swapped.stand_in));
  }
  if (!any) return {};
  said.add(tracking_sentence(swap));
  said.add(range_sentence(swap));
  if (any_resistor) {
    said.add("A resistor holds its volts only as long as the string's current is what it is.");
  }
  if (any_on_the_sink) {
    said.add("Mount it where the old one sat, touching the heat sink and insulated from it.");
  }
  return said.text();
}

}  // namespace idlepoint::report
