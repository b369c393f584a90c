// The heat in words: how much of a watt comes back, what would end that well, and the story of a
// stage that finds no rest.
//
// Used by the readings, preset and check reports. No number is made here, but for rounding to the
// safe side.
#pragma once

#include <string>

#include "answers/reading_values.hpp"
#include "answers/thermal_margin.hpp"
#include "answers/thermal_story.hpp"
#include "circuit/circuit.hpp"
#include "report/page.hpp"

namespace idlepoint::report {

/// "Warmed through: HS601 31 C with 2.6 W going into it. The hottest junction is that of Q606, 34
/// C." then how much of each extra watt comes back, and what would make it run away.
[[nodiscard]] std::string warming_section(const circuit::Circuit& circuit,
                                          const solve::OperatingPoint& warm,
                                          const answers::ThermalMargin& margin,
                                          const Page& page);

/// "Each extra watt comes back as 0.28 W", or that nothing does; without its full stop.
[[nodiscard]] std::string comes_back(double loop_gain);

/// The leading part, where it leaves and its loop gain there, then what would hold it: each alone
/// enough, a line each.
[[nodiscard]] std::string trouble_section(const answers::ThermalStory& story, const Page& page);

/// What would hold it, in one sentence.
[[nodiscard]] std::string advice(const answers::ThermalStory& story);

/// The story as a page of text, from its first line to the standing caution.
[[nodiscard]] std::string text_of(const answers::ThermalStory& story, const Page& page);

}  // namespace idlepoint::report
