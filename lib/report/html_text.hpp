// Text of a user's file inside a page: shown as text, whatever it holds.
//
// Used by every page that is written as HTML. What a browser takes for markup is written as
// character references (HTML Living Standard, section 13.2, "Parsing HTML documents"), so that a
// title, a part's name or a reason can neither open an element nor close one.
#pragma once

#include <string>
#include <string_view>

namespace idlepoint::report {

/// `text` for the content of an element or for an attribute value in double or single quotes:
/// & < > " ' as references. Control characters other than tab and line end become `?`. Bytes that
/// are no UTF-8 stay: a browser shows a mark in their place.
[[nodiscard]] std::string html_text(std::string_view text);

/// JSON text for the inside of a `<script type="application/json">` element. The same JSON: < > &
/// and the two line separators that JavaScript knows are written as \u escapes, so that nothing in
/// it closes the element or opens a comment.
[[nodiscard]] std::string json_in_script(std::string_view json);

}  // namespace idlepoint::report
