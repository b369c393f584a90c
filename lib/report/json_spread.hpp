// The spread answer as one JSON object: docs/commands.md, "spread".
#pragma once

#include <string>

#include "answers/spread.hpp"

namespace idlepoint::report {

[[nodiscard]] std::string json_of(const answers::Spread& answer);

}  // namespace idlepoint::report
