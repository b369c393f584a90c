// The `swap` answer as one JSON object. Keys: docs/commands.md.
#pragma once

#include <string>

#include "answers/swap.hpp"

namespace idlepoint::report {

[[nodiscard]] std::string json_of(const answers::Swap& swap);

}  // namespace idlepoint::report
