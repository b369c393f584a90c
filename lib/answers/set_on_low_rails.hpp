// "How wrong would it be if I set the bias while the rails are low?" The reading that such a
// setting comes to when the full volts arrive.
//
// Used by the power-up answer to say why nothing is set below 95 %. Source of the rule:
// docs/commands.md, "powerup".
#pragma once

#include <optional>
#include <vector>

#include "answers/trimmer_places.hpp"
#include "circuit/checked_circuit.hpp"
#include "solve/conditions.hpp"

namespace idlepoint::answers {

struct SetOnLowRails {
  std::size_t trimmer = 0;  ///< Of the places.
  double rails = 0.0;       ///< At which it was set.
  bool reached = false;     ///< False: no place on the track gives the target there.
  double travel = 0.0;      ///< Where it was set, or the nearest that it comes.
  double reading = 0.0;     ///< On the low rails; own unit, as is the next.
  std::optional<double> at_full_rails = {};  ///< Cold; none where no DC state is found.
};

/// One trimmer at a time, the others at their preset, at the first cold moment; none that needs
/// parts which are out. `rails` are
/// fractions as in the conditions, and `full` those of the working rails. Cost: one search along
/// the track for each trimmer and rails.
[[nodiscard]] std::vector<SetOnLowRails> set_on_low_rails(const TrimmerPlaces& places,
                                                          const solve::Conditions& full,
                                                          const std::vector<double>& rails);

}  // namespace idlepoint::answers
