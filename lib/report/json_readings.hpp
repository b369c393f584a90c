// The readings answer as JSON.
#pragma once

#include <string>

#include "answers/readings.hpp"

namespace idlepoint::report {

/// The object of docs/commands.md, "readings".
[[nodiscard]] std::string json_of(const answers::Readings& answer);

}  // namespace idlepoint::report
