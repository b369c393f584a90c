// The paper that text is written on: its width, and whether bold print is to be had.
//
// Filled by the command line from the terminal; every text report folds its sentences here.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace idlepoint::report {

struct Page {
  std::size_t width = 100;  ///< Characters a line, 40 or more; tables keep their own width.
  bool bold = false;        ///< Broken limits in bold: a terminal, and NO_COLOR not set.
};

/// `text` folded at blanks to the page's width and ended with a line end; lines after the first
/// begin with `indent` blanks, the first with `first_indent`. A word longer than a line stands
/// alone.
[[nodiscard]] std::string fold(std::string_view text,
                               const Page& page,
                               std::size_t first_indent = 0,
                               std::size_t indent = 0);

/// In bold where the page has it, plain elsewhere.
[[nodiscard]] std::string emphasised(const std::string& text, const Page& page);

/// ASCII letters as capitals: for the few words that are meant to be seen first.
[[nodiscard]] std::string in_capitals(std::string_view text);

/// Characters, not bytes, of UTF-8 text.
[[nodiscard]] std::size_t width_of(std::string_view text) noexcept;

/// `text` with blanks behind it (or before it) up to `width` characters; never cut.
[[nodiscard]] std::string padded_right(std::string_view text, std::size_t width);
[[nodiscard]] std::string padded_left(std::string_view text, std::size_t width);

using TableRow = std::vector<std::string>;

/// Lines indented by two: the first column flush left, the others flush right under their headings.
[[nodiscard]] std::string table_of(const std::vector<TableRow>& rows);

}  // namespace idlepoint::report
