// The answer of `poweroff` in words: what to do first, then what is tested, group by group.
#pragma once

#include <string>

#include "answers/poweroff.hpp"
#include "report/page.hpp"

namespace idlepoint::report {

[[nodiscard]] std::string text_of(const answers::PowerOff& answer, const Page& page);

}  // namespace idlepoint::report
