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

// How the standing current will go with the warmth, beside what it did.
const char* tracking(double old_given, double new_given, double needed) {
  constexpr double alike_v = 0.2e-3;
  const double old_miss = old_given - needed;
  const double new_miss = new_given - needed;
  if (std::abs(new_miss - old_miss) < alike_v) return "It tracks as the old one did.";
  if (std::abs(new_miss) < std::abs(old_miss)) return "It tracks better than the old one did.";
  return new_miss > 0.0 ? "It tracks less: the standing current will climb more as it warms."
                        : "It tracks more: the standing current will sink as it warms.";
}

std::string degrees_sentence(const StandInTest& test) {
  const std::string degrees = fmt::format("For each degree of its own it gives {}, the old one {}",
                                          per_degree(test.new_v_per_k),
                                          per_degree(test.old_v_per_k));
  if (!test.needed_v_per_k) return degrees + ".";
  const std::string needed = fmt::format(
      "to keep the standing current still, the stage needs {} for each degree of the "
      "heat sink",
      per_degree(*test.needed_v_per_k));
  if (test.coupling == 0.0) {
    return fmt::format(
        "{}; {}, and off the heat sink it gives none of that, as the old one did "
        "not.",
        degrees,
        needed);
  }
  const std::string feels =
      test.coupling < 1.0 ? fmt::format(" It feels {} of the sink's rise.", percent(test.coupling))
                          : std::string();
  return fmt::format("{}; {}.{} {}",
                     degrees,
                     needed,
                     feels,
                     tracking(test.coupling * test.old_v_per_k,
                              test.coupling * test.new_v_per_k,
                              *test.needed_v_per_k));
}

std::string range_sentence(const Swap& swap) {
  const auto* preset = answers::preset_of(swap.after);
  if (preset == nullptr) return {};
  Sentences said;
  for (const auto& answer : preset->adjustments) {
    if (!answer.states.at_a.reading || !answer.states.at_b.reading) continue;
    said.add(fmt::format("{} from end to end then takes `{}` from {} to {}.",
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
  for (const auto& swapped : swap.swaps) {
    if (!swapped.stand_in) continue;
    any = true;
    said.add(volts_sentence(swap, swapped, *swapped.stand_in));
    said.add(degrees_sentence(*swapped.stand_in));
  }
  if (!any) return {};
  said.add(range_sentence(swap));
  said.add("Mount it where the old one sat, touching the heat sink and insulated from it.");
  return said.text();
}

}  // namespace idlepoint::report
