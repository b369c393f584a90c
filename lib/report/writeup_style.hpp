// The style sheet of the owner's page, as it stands inside the program: page/writeup.css.
//
// Used by report/html_writeup.
#pragma once

#include <string_view>

namespace idlepoint::report {

[[nodiscard]] std::string_view style_of_the_writeup() noexcept;

}  // namespace idlepoint::report
