// The program, from its words to its exit status.
#pragma once

#include <string>
#include <vector>

namespace idlepoint::cli {

/// `words` without the program's own name. Never throws: whatever goes wrong inside becomes one
/// message that asks for the stage file, and status 70.
[[nodiscard]] int run(const std::vector<std::string>& words) noexcept;

}  // namespace idlepoint::cli
