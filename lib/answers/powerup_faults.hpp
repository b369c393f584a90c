// What the dangerous faults of a stage would show while its rails come up.
//
// Every fault that the hazards answer would call critical at full rails with the trimmers at their
// preset, solved again at every step with the trimmers at their safe end: some do not show there
// yet. Used by the power-up answer. Source: docs/commands.md, "powerup".
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "answers/at_rail.hpp"
#include "answers/hazards.hpp"
#include "answers/reading_values.hpp"
#include "answers/trimmer_places.hpp"
#include "circuit/edits.hpp"

namespace idlepoint::answers {

/// One fault at one step.
struct FaultAtStep {
  bool finds_state = false;
  std::optional<HazardEffect> effect = {};  ///< Against the sound stage there; none: no harm yet.
  OutputPlace output = OutputPlace::unknown;
  double total_power_w = 0.0;
  std::vector<double> readings = {};  ///< [readings of the file] own units; empty without a state.
};

struct PowerupFault {
  circuit::Edit edit;
  std::string fault;                    ///< As docs/language.md writes it.
  std::optional<circuit::PartId> part;  ///< None for a bridge or a lost rail.
  HazardEffect effect;                  ///< At full rails, the trimmers at their preset.
  std::optional<double> total_power_w;  ///< There; none where it finds no state.
  std::vector<FaultAtStep> steps = {};  ///< [steps] the trimmers at their safe end.
};

/// `sound_at_preset` is the cold state of `at_preset` at full rails; `sound`, [steps], those of
/// `at_safe_end`, none where there is no state. The worst first. Cost: a solve for every fault that
/// can be thought of, and for a critical one a solve a step.
[[nodiscard]] std::vector<PowerupFault> find_powerup_faults(
    const circuit::CheckedCircuit& at_preset,
    const solve::OperatingPoint& sound_at_preset,
    const circuit::CheckedCircuit& at_safe_end,
    const std::vector<const solve::OperatingPoint*>& sound);

}  // namespace idlepoint::answers
