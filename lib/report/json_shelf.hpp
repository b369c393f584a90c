// The `shelf` answer as one JSON object. Keys: docs/commands.md.
#pragma once

#include <string>

#include "answers/shelf.hpp"

namespace idlepoint::report {

[[nodiscard]] std::string json_of(const answers::Shelf& shelf);

}  // namespace idlepoint::report
