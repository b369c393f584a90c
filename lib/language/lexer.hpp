// Text to statements: words, then key=value pairs, each with its place.
//
// Knows the grammar of docs/language.md ("Grammar") and nothing of what a statement means; stage,
// types and job files all pass through here.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "complaints/complaint.hpp"
#include "language/source_text.hpp"

namespace idlepoint::language {

/// Nobody reads more complaints than this; a file with more is something else than a stage. Those
/// that follow are counted as one, `too-many-complaints`.
inline constexpr std::size_t most_complaints = 20'000;

/// One word as written, quotes and escapes resolved. `source` outlives the word.
struct Word {
  std::string text;
  const SourceText* source = nullptr;
  std::size_t offset = 0;  ///< Of its first byte (of the opening quote).
  bool quoted = false;
};

struct Pair {
  Word key;
  Word value;
};

/// words[0] is the keyword: there is always at least one word.
struct Statement {
  std::vector<Word> words;
  std::vector<Pair> pairs;

  [[nodiscard]] const Word& keyword() const { return words.front(); }
};

/// The place of a word; the remark is the word itself where none is given.
[[nodiscard]] complaints::Place place_of(const Word& word);
[[nodiscard]] complaints::Place place_of(const Word& word, std::string remark);

/// A user's text for a sentence: in backquotes, shortened where it is very long.
[[nodiscard]] std::string quote(std::string_view text);

/// The statements of a text. What does not fit the grammar is complained of, and mended by guess so
/// that reading can go on; a text that is not UTF-8, or holds NUL, gives one complaint and nothing
/// else. Cost: linear.
[[nodiscard]] std::vector<Statement> lex(const SourceText& source,
                                         complaints::Complaints& complaints);

}  // namespace idlepoint::language
