#include "answers/draft.hpp"

#include <utility>

namespace idlepoint::answers {
namespace {

constexpr std::string_view recognise = "On the drawing: ";

std::string_view take_line(std::string_view& text) {
  const std::size_t end = text.find('\n');
  const std::string_view line = text.substr(0, end);
  text.remove_prefix(end == std::string_view::npos ? text.size() : end + 1);
  return line;
}

}  // namespace

std::vector<std::string> head_paragraphs(std::string_view text) {
  std::vector<std::string> paragraphs;
  bool goes_on = false;
  while (text.starts_with('#')) {
    std::string_view line = take_line(text).substr(1);
    while (line.starts_with(' ')) line.remove_prefix(1);
    if (line.empty()) {
      goes_on = false;
    } else if (goes_on) {
      paragraphs.back() += " " + std::string(line);
    } else {
      paragraphs.emplace_back(line);
      goes_on = true;
    }
  }
  return paragraphs;
}

Draft make_draft(std::string name, std::string text, const circuit::Circuit& circuit) {
  Draft draft;
  for (const std::string& paragraph : head_paragraphs(text)) {
    if (paragraph.starts_with(recognise)) {
      draft.on_the_drawing = paragraph.substr(recognise.size());
    } else if (draft.kind.empty()) {
      draft.kind = paragraph;
    }
  }
  draft.name = std::move(name);
  draft.text = std::move(text);
  draft.blanks = circuit.blanks;
  return draft;
}

}  // namespace idlepoint::answers
