// The pages that --help prints.
#pragma once

#include <string>

#include "command.hpp"

namespace idlepoint::cli {

/// All commands, a line each.
[[nodiscard]] std::string help_of_all();

/// One command: its question, its options, an example that works.
[[nodiscard]] std::string help_of(const Command& command);

}  // namespace idlepoint::cli
