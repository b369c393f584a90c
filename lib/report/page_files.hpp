// The files of lib/report/page that stand inside the program: what is installed needs none of them.
//
// Used by report/html_sheet and report/html_writeup.
#pragma once

#include <string_view>

namespace idlepoint::report {

/// The bench sheet's page with its style, its scripts and D3, put together when the program was
/// built (page/assemble.cmake); UTF-8. `answers_mark` stands in it once, where the answers' JSON
/// belongs.
[[nodiscard]] std::string_view page_of_the_sheet() noexcept;

inline constexpr std::string_view answers_mark = "@ANSWERS@";

/// The style of the owner's page.
[[nodiscard]] std::string_view style_of_the_writeup() noexcept;

}  // namespace idlepoint::report
