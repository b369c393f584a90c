// The owner's page as JSON. Keys and meaning: docs/commands.md.
#pragma once

#include <string>

#include "answers/writeup.hpp"

namespace idlepoint::report {

/// `written`: the path of the page.
[[nodiscard]] std::string json_of(const answers::Writeup& writeup, const std::string& written);

}  // namespace idlepoint::report
