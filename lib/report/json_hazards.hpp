// The `hazards` answer as one JSON object. Keys: docs/commands.md.
#pragma once

#include <string>

#include "answers/hazards.hpp"

namespace idlepoint::report {

[[nodiscard]] std::string json_of(const answers::Hazards& hazards);

}  // namespace idlepoint::report
