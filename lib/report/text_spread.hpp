// The spread answer as a page of text.
#pragma once

#include <string>

#include "answers/spread.hpp"
#include "report/page.hpp"

namespace idlepoint::report {

/// Between which values 19 stages in 20 read, how often a limit is broken with no part at fault,
/// whose tolerance it is, and where the trimmers finish. Ends with a line end.
[[nodiscard]] std::string text_of(const answers::Spread& answer, const Page& page);

}  // namespace idlepoint::report
