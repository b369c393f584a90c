// Where the words go: standard output for answers, standard error for complaints, and how wide the
// paper is.
#pragma once

#include <string>

#include "report/page.hpp"

namespace idlepoint::cli {

/// The width of the terminal, at least 60 and at most 120; 100 where standard output is none. Bold
/// only on a terminal, and not where NO_COLOR is set to anything.
[[nodiscard]] report::Page page_of_terminal();

void say(const std::string& text);       ///< To standard output.
void complain(const std::string& text);  ///< To standard error.

}  // namespace idlepoint::cli
