#include "language/command_text.hpp"

#include <algorithm>
#include <cstddef>
#include <string>

#include "language/text_encoding.hpp"

namespace idlepoint::language {

CommandText::CommandText(std::string_view text) : source("command line", only_text(text), 0) {
  const std::string& whole = source.text();
  std::size_t at = 0;
  while ((at = whole.find_first_not_of(" \t\r\n", at)) != std::string::npos) {
    const std::size_t end = std::min(whole.find_first_of(" \t\r\n", at), whole.size());
    words.push_back({whole.substr(at, end - at), &source, at, false});
    at = end;
  }
}

std::optional<Sides> sides_of(Draft& draft, const CommandText& command, std::string_view form) {
  const std::string& text = command.source.text();
  const std::size_t equals = text.find('=');
  if (equals != std::string::npos && equals > 0 && equals + 1 < text.size() &&
      command.words.size() == 1) {
    return Sides{{text.substr(0, equals), &command.source, 0, false},
                 {text.substr(equals + 1), &command.source, equals + 1, false}};
  }
  complain(draft,
           "setting-unreadable",
           {command.source.place(0, "")},
           quote(text) + " is not " + quote(form),
           "",
           "Write it as " + quote(form) + ", without spaces.");
  return std::nullopt;
}

complaints::Complaints complaints_of(Draft& draft,
                                     bool is_found,
                                     std::string_view kind,
                                     const CommandText& command) {
  if (draft.complaints.empty() && !is_found) {
    complain(draft,
             kind,
             {command.source.place(0, "")},
             quote(command.source.text()) + " cannot be read",
             "",
             "");
  }
  auto complaints = std::move(draft.complaints);
  // A command line has columns but no lines.
  for (complaints::Complaint& complaint : complaints) {
    for (complaints::Place& place : complaint.places) {
      if (place.file == "command line") place.line = 0;
    }
  }
  return complaints;
}

}  // namespace idlepoint::language
