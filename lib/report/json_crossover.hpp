// The crossover answer as JSON. Keys: docs/commands.md, "crossover".
#pragma once

#include <string>

#include "answers/crossover.hpp"

namespace idlepoint::report {

[[nodiscard]] std::string json_of(const answers::Crossover& answer);

}  // namespace idlepoint::report
