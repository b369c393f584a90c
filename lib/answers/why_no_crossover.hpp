// What a file or its conditions lack for a crossover sweep.
//
// Used by answers/crossover alone. Source: docs/commands.md, "crossover".
#pragma once

#include <optional>
#include <string>

#include "answers/setup.hpp"

namespace idlepoint::answers {

/// As a sentence with the way out: rails too low, parts taken out, no output, no drive point, no
/// loudspeaker. None where it can be swept, as far as the drawing tells.
[[nodiscard]] std::optional<std::string> why_no_crossover(const Setup& setup);

}  // namespace idlepoint::answers
