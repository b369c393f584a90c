// The `hazards` answer for people.
#pragma once

#include <string>

#include "answers/hazards.hpp"
#include "report/page.hpp"

namespace idlepoint::report {

[[nodiscard]] std::string text_of(const answers::Hazards& hazards, const Page& page);

}  // namespace idlepoint::report
