// The `swap` answer for people.
#pragma once

#include <string>

#include "answers/swap.hpp"
#include "report/page.hpp"

namespace idlepoint::report {

/// Lines folded to the page.
[[nodiscard]] std::string text_of(const answers::Swap& swap, const Page& page);

}  // namespace idlepoint::report
