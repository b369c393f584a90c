// The preset answer as JSON.
#pragma once

#include <string>

#include "answers/preset.hpp"

namespace idlepoint::report {

/// The object of docs/commands.md, "preset".
[[nodiscard]] std::string json_of(const answers::Preset& answer);

}  // namespace idlepoint::report
