// The power-up answer as JSON. Keys: docs/commands.md.
#pragma once

#include <string>

#include "answers/powerup.hpp"

namespace idlepoint::report {

[[nodiscard]] std::string json_of(const answers::Powerup& answer);

}  // namespace idlepoint::report
