// The drafts as JSON: the list of them, or one.
#pragma once

#include <string>
#include <vector>

#include "answers/draft.hpp"

namespace idlepoint::report {

/// `drafts` [{`name`, `kind`, `on_the_drawing`, `blanks`: how many}].
[[nodiscard]] std::string json_of(const std::vector<answers::Draft>& drafts);

/// `draft`, `blanks` [text], and `text` or, where it was written to a file, `written`: its path.
[[nodiscard]] std::string json_of(const answers::Draft& draft, const std::string& written);

}  // namespace idlepoint::report
