// The crossover answer as text.
#pragma once

#include <string>

#include "answers/crossover.hpp"
#include "report/page.hpp"

namespace idlepoint::report {

[[nodiscard]] std::string text_of(const answers::Crossover& answer, const Page& page);

}  // namespace idlepoint::report
