// The page of the bench sheet without its answers, as it stands inside the program.
//
// Made at build time by page/assemble.cmake from sheet.html, sheet.css, the scripts beside them and
// D3. Used by report/html_sheet.
#pragma once

#include <string_view>

namespace idlepoint::report {

/// The whole page; `answers_mark` stands in it once, where the answers' JSON belongs.
[[nodiscard]] std::string_view page_of_the_sheet() noexcept;

inline constexpr std::string_view answers_mark = "@ANSWERS@";

}  // namespace idlepoint::report
