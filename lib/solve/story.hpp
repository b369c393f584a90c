// Turns what went wrong into the story that NotSettled tells: where, held by which part, what is
// likely.
#pragma once

#include <optional>

#include "solve/assembly.hpp"
#include "solve/law_range.hpp"
#include "solve/not_settled.hpp"

namespace idlepoint::solve {

/// A loop of ideal branches whose voltages do not add to zero, if there is one.
[[nodiscard]] std::optional<NotSettled> contradictory_loop(const System& system,
                                                           const Numbers& numbers);

/// Notes in the last attempt of `story` that its state lies outside a law, and whose.
void note_outside(const System& system, const OutsideLaw& outside, NotSettled& story);

/// Completes the story with the worst balance in `work` and the part that holds it.
[[nodiscard]] NotSettled tell(const System& system, const Work& work, NotSettled story);

}  // namespace idlepoint::solve
