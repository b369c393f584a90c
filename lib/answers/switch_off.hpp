// "At which reading do I switch off?" Limits between what a sound stage shows and what a dangerous
// fault would show.
//
// Used by the power-up answer, for each reading at each step of the rails. The margins are common
// practice, no source; the rule: docs/commands.md, "powerup".
#pragma once

#include <optional>
#include <vector>

#include "answers/reading_values.hpp"
#include "circuit/circuit.hpp"

namespace idlepoint::answers {

/// One end of what is allowed, in the reading's own unit.
struct SwitchOffLimit {
  double limit = 0.0;                    ///< Two or three figures; between `sound` and `nearest`.
  double sound = 0.0;                    ///< The end of the sound band, the meter's error included.
  double nearest = 0.0;                  ///< What the nearest of the faults beyond it would show.
  std::vector<std::size_t> faults = {};  ///< All beyond it, the nearest first.
};

struct SwitchOff {
  std::optional<SwitchOffLimit> above = {};  ///< None: no fault shows itself there.
  std::optional<SwitchOffLimit> below = {};
};

/// What one fault would show, by its index in a list of the caller's.
struct FaultReads {
  std::size_t fault = 0;
  double value = 0.0;
};

/// `sound`: the reading of the sound stage in every setting in which it must not trip, with bands.
/// A fault counts where it stands clear of the band by half the band's own width on that side, and
/// by what the meter can tell; the limit then lies once that width outside the band, or nearer
/// where the fault leaves less room. Nothing where `sound` is empty.
[[nodiscard]] SwitchOff find_switch_off(const circuit::Meter& meter,
                                        const std::vector<ReadingValue>& sound,
                                        const std::vector<FaultReads>& faults);

}  // namespace idlepoint::answers
