// The check answer as JSON.
#pragma once

#include <string>

#include "answers/check.hpp"

namespace idlepoint::report {

/// The object of docs/commands.md, "check". Blanks stand in `complaints` too, with their places.
[[nodiscard]] std::string json_of(const answers::Check& answer);

}  // namespace idlepoint::report
