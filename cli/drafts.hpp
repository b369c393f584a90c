// The drafts that are installed with the program, as files in its folder `drafts`.
#pragma once

#include <string>
#include <variant>
#include <vector>

#include "answers/draft.hpp"

namespace idlepoint::cli {

/// The names, in the order of the alphabet; none where the folder is not there.
[[nodiscard]] std::vector<std::string> draft_names();

/// The draft of that name; else what is wrong with its file, ready for standard error.
[[nodiscard]] std::variant<answers::Draft, std::string> read_draft(const std::string& name);

}  // namespace idlepoint::cli
