// A text of the command line, taken apart: its words, its two sides, its complaints.
//
// Shared by the readers of faults, settings and replacements; not used outside lib/language.
#pragma once

#include <optional>
#include <string_view>
#include <utility>
#include <vector>

#include "complaints/result.hpp"
#include "language/draft.hpp"
#include "language/lexer.hpp"

namespace idlepoint::language {

/// Words stand at the blanks of the text. Keeps the text they point into.
struct CommandText {
  explicit CommandText(std::string_view text);
  CommandText(const CommandText&) = delete;
  CommandText& operator=(const CommandText&) = delete;

  SourceText source;
  std::vector<Word> words;
};

/// The two sides of `VR2=40%`.
struct Sides {
  Word left;
  Word right;
};

/// Complains where there are not two, or where there are blanks; `form` shows how it is written.
[[nodiscard]] std::optional<Sides> sides_of(Draft& draft,
                                            const CommandText& command,
                                            std::string_view form);

/// The draft's complaints, placed by column alone; where there are none and nothing was found, one
/// of that kind.
[[nodiscard]] complaints::Complaints complaints_of(Draft& draft,
                                                   bool is_found,
                                                   std::string_view kind,
                                                   const CommandText& command);

/// What was found, unless anything was complained of.
template <class T>
[[nodiscard]] complaints::Result<T> answer(Draft& draft,
                                           std::optional<T> found,
                                           std::string_view kind,
                                           const CommandText& command) {
  auto complaints = complaints_of(draft, found.has_value(), kind, command);
  if (!complaints.empty()) return complaints;
  return complaints::Result<T>(std::move(*found));
}

}  // namespace idlepoint::language
