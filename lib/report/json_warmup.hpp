// The warmup answer as JSON.
#pragma once

#include <string>

#include "answers/warmup.hpp"

namespace idlepoint::report {

/// The object of docs/commands.md, "warmup".
[[nodiscard]] std::string json_of(const answers::Warmup& answer);

}  // namespace idlepoint::report
