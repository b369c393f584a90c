#include "report/text_draft.hpp"

#include <fmt/format.h>

#include "report/words.hpp"

namespace idlepoint::report {

std::string text_of(const std::vector<answers::Draft>& drafts, const Page& page) {
  constexpr std::size_t indent = 4;
  std::string text = fold(
      "One of these, with its values left blank: `idlepoint draft NAME -o FILE`. Go by the "
      "drawing, not by the maker's words.",
      page);
  for (const auto& draft : drafts) {
    text += "\n  " + draft.name + "\n" + fold(draft.kind, page, indent, indent);
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
