// The fault answer as JSON.
#pragma once

#include <string>

#include "answers/fault.hpp"

namespace idlepoint::report {

/// The object of docs/commands.md, "fault".
[[nodiscard]] std::string json_of(const answers::Fault& answer);

}  // namespace idlepoint::report
