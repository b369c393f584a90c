// The `shelf` answer for people.
#pragma once

#include <string>

#include "answers/shelf.hpp"
#include "report/page.hpp"

namespace idlepoint::report {

[[nodiscard]] std::string text_of(const answers::Shelf& shelf, const Page& page);

}  // namespace idlepoint::report
