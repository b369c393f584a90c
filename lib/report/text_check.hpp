// The check answer as a page of text. Its complaints are rendered by complaints/render.hpp and go
// to standard error; this page counts them.
#pragma once

#include <string>

#include "answers/check.hpp"
#include "report/page.hpp"

namespace idlepoint::report {

/// Verdict, blanks, printed volts against calculated ones, volts at the legs. Ends with a line end.
[[nodiscard]] std::string text_of(const answers::Check& answer, const Page& page);

/// The complaints to be rendered beside that page: all but the blanks, which it lists itself.
[[nodiscard]] complaints::Complaints complaints_beside(const answers::Check& answer);

}  // namespace idlepoint::report
