#include "report/text_draft.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "report/words.hpp"

namespace idlepoint::report {

std::string text_of(const std::vector<answers::Draft>& drafts, const Page& page) {
  std::size_t width = 0;
  for (const auto& draft : drafts) width = std::max(width, width_of(draft.name));
  std::string text = fold(
      "One of these, with its values left blank: `idlepoint draft NAME -o FILE`. Go by the "
      "drawing, not by the maker's words.",
      page);
  for (const auto& draft : drafts) {
    const std::size_t indent = width + 5;
    const std::string kind = fold(draft.kind, page, indent, indent);
    text += "\n  " + padded_right(draft.name, width) + "   " + kind.substr(indent);
    text += fold("On the drawing: " + draft.on_the_drawing, page, indent, indent);
  }
  return text;
}

std::string draft_written(const answers::Draft& draft, const std::string& path, const Page& page) {
  return fold(draft.kind, page) +
         fold(fmt::format("Written to {}, with {} to fill in: look for the question marks. "
                          "`idlepoint check {}` lists those that are left.",
                          path,
                          count_in_words(draft.blanks.size(), "value"),
                          path),
              page);
}

}  // namespace idlepoint::report
