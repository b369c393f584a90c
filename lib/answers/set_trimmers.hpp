// Every trimmer with an `adjust` set as the file asks, and what each does there.
//
// The search that `preset` answers with, and where `poweroff` finds the positions whose ohms it
// tells. Source of the rules: docs/commands.md, "preset".
#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "answers/setup.hpp"
#include "answers/trimmer_states.hpp"
#include "solve/adjust.hpp"

namespace idlepoint::answers {

/// Below this fraction of the working rails no preset is given: there the standing current that a
/// setting shows says nothing about the one at full rails.
inline constexpr double lowest_rails_for_a_preset = 0.95;

/// Below `lowest_rails_for_a_preset`, but for rounding.
[[nodiscard]] bool are_rails_too_low(const Setup& setup) noexcept;

struct SetTrimmers {
  solve::Adjusted adjusted;           ///< In the state that was asked for.
  solve::OperatingPoint cold;         ///< The first cold moment there.
  std::vector<TrimmerStates> states;  ///< [adjustments]
};

/// Why there is nothing to set, as a sentence: rails too low, no `adjust`, a broken trimmer.
[[nodiscard]] std::optional<std::string> why_no_preset(const Setup& setup);

/// Requires that there is something to set. Where several positions give a target, the one first
/// met from the safe end.
[[nodiscard]] std::variant<SetTrimmers, solve::NotSettled, solve::ThermalTrouble> set_trimmers(
    const Setup& setup);

}  // namespace idlepoint::answers
