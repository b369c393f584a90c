// The preset answer as JSON.
#pragma once

#include <string>

#include "answers/preset.hpp"
#include "report/json_pieces.hpp"

namespace idlepoint::report {

/// The list `adjustments`.
[[nodiscard]] Json json_adjustments(const answers::Preset& answer);

/// The object of docs/commands.md, "preset".
[[nodiscard]] std::string json_of(const answers::Preset& answer);

}  // namespace idlepoint::report
