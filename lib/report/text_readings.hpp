// The readings answer as a page of text.
#pragma once

#include <string>

#include "answers/readings.hpp"
#include "report/page.hpp"

namespace idlepoint::report {

/// From the first line (what, under which conditions) to the standing caution; ends with a line
/// end.
[[nodiscard]] std::string text_of(const answers::Readings& answer, const Page& page);

}  // namespace idlepoint::report
