// One step of the rails on the way up, and what its numbers prove.
//
// Used by the power-up answer alone. Source of the rules: docs/commands.md, "powerup".
#pragma once

#include <optional>

#include "answers/powerup.hpp"

namespace idlepoint::answers {

/// True from 95 % of the nominal rails: nothing is set below.
[[nodiscard]] bool may_set_at(double rails) noexcept;

/// The stage and its readings, without bands. None where no DC state is found.
[[nodiscard]] std::optional<AtStep> look_at_step(const circuit::CheckedCircuit& stage,
                                                 const solve::Conditions& conditions);

/// Both places of the trimmers with their bands; the preset's only where `answer` has one.
[[nodiscard]] PowerupStep take_step(const Powerup& answer, const solve::Conditions& conditions);

/// Fills `tells` of every step of `answer`, whose states are known.
void tell_what_steps_prove(Powerup& answer);

}  // namespace idlepoint::answers
