// The drafts in words: the list of them, and what was written.
#pragma once

#include <string>
#include <vector>

#include "answers/draft.hpp"
#include "report/page.hpp"

namespace idlepoint::report {

/// Name, kind and how to recognise it on a drawing, one paragraph each.
[[nodiscard]] std::string text_of(const std::vector<answers::Draft>& drafts, const Page& page);

/// What was written to `path`, and what to do next.
[[nodiscard]] std::string draft_written(const answers::Draft& draft,
                                        const std::string& path,
                                        const Page& page);

}  // namespace idlepoint::report
