// The fault answer as a page of text.
#pragma once

#include <string>

#include "answers/fault.hpp"
#include "report/page.hpp"

namespace idlepoint::report {

/// Readings side by side, how it comes about, what is in danger, what gives it away; to the
/// standing caution.
[[nodiscard]] std::string text_of(const answers::Fault& answer, const Page& page);

/// The first line of the story of a faulty stage that finds no state.
[[nodiscard]] std::string without_state(const std::vector<std::string>& faults, const Page& page);

}  // namespace idlepoint::report
