#include "language/lexer.hpp"

#include <algorithm>
#include <unordered_map>
#include <utility>

#include "language/text_encoding.hpp"

namespace idlepoint::language {
namespace {

using complaints::Complaint;
using complaints::Complaints;
using complaints::kind;

bool is_blank(char c) { return c == ' ' || c == '\t'; }

// The reading of one text: where it stands, and what it has made so far.
struct Lexing {
  const SourceText& source;
  Complaints& complaints;
  std::vector<Statement> statements;
  std::size_t at = 0;
  std::size_t end = 0;  // Of the line being read.
  bool skip_line = false;
};

void complain(Lexing& lexing,
              const char* name,
              std::size_t offset,
              std::string headline,
              std::string why,
              std::string instead) {
  if (lexing.complaints.size() > most_complaints) return;
  lexing.complaints.push_back({.kind = kind(name),
                               .headline = std::move(headline),
                               .places = {lexing.source.place(offset, "")},
                               .why = std::move(why),
                               .instead = std::move(instead)});
}

char peek(const Lexing& lexing) { return lexing.source.text()[lexing.at]; }

bool at_end(const Lexing& lexing) { return lexing.at >= lexing.end; }

void skip_blanks(Lexing& lexing) {
  while (!at_end(lexing) && is_blank(peek(lexing))) ++lexing.at;
}

// Reads "..." from its opening quote.
Word read_quoted(Lexing& lexing) {
  Word word{.text = {}, .source = &lexing.source, .offset = lexing.at, .quoted = true};
  ++lexing.at;
  while (!at_end(lexing) && peek(lexing) != '"') {
    char c = peek(lexing);
    const bool escape = c == '\\';
    if (escape && lexing.at + 1 < lexing.end) {
      c = lexing.source.text()[lexing.at + 1];
      if (c != '"' && c != '\\') {
        complain(lexing,
                 "quote-escape",
                 lexing.at,
                 "a backslash in quotes stands before a letter that needs none",
                 R"(Inside quotes only \" and \\ are written with a backslash.)",
                 "Write the backslash twice, or leave it out.");
      }
      ++lexing.at;
    }
    word.text += c;
    ++lexing.at;
  }
  if (at_end(lexing)) {
    complain(lexing,
             "quote-not-closed",
             word.offset,
             "a quote is opened and not closed on its line",
             "",
             "Write the closing `\"`.");
    return word;
  }
  ++lexing.at;
  return word;
}

Word read_bare(Lexing& lexing) {
  const std::size_t start = lexing.at;
  const std::string& text = lexing.source.text();
  while (!at_end(lexing)) {
    const char c = peek(lexing);
    if (is_blank(c) || c == '=' || c == '#' || c == '"') break;
    ++lexing.at;
  }
  return {.text = text.substr(start, lexing.at - start),
          .source = &lexing.source,
          .offset = start,
          .quoted = false};
}

bool at_word_end(const Lexing& lexing) {
  return at_end(lexing) || is_blank(peek(lexing)) || peek(lexing) == '#';
}

Word read_word(Lexing& lexing) {
  Word word = peek(lexing) == '"' ? read_quoted(lexing) : read_bare(lexing);
  // A word ends at a blank: "abc"def and abc"def" are neither one word nor two.
  const bool clean = at_word_end(lexing) || (peek(lexing) == '=' && !word.quoted);
  if (clean) return word;
  if (peek(lexing) != '=') {
    complain(lexing,
             "text-after-quote",
             lexing.at,
             word.quoted ? "text stands right behind a closing quote"
                         : "a quote begins in the middle of a word",
             "",
             "Put a blank between the two, or the whole in quotes.");
    while (!at_word_end(lexing)) ++lexing.at;
  }
  return word;
}

void complain_of_space(Lexing& lexing, std::size_t offset, const Word& key, const Word& value) {
  complain(lexing,
           "space-around-equals",
           offset,
           "a space stands beside the `=`",
           "",
           "Write " +
               quote((key.text.empty() ? "key" : key.text) + "=" +
                     (value.text.empty() ? "value" : value.text)) +
               " without spaces.");
}

// Reads what stands behind the key and the `=`, blanks forgiven but named.
void read_pair(Lexing& lexing, Statement& statement, Word key, bool blank_before) {
  const std::size_t equals = lexing.at;
  ++lexing.at;
  const bool blank_behind = at_end(lexing) || is_blank(peek(lexing));
  skip_blanks(lexing);
  Word value{.text = {}, .source = &lexing.source, .offset = equals, .quoted = false};
  if (!at_end(lexing) && peek(lexing) != '#' && peek(lexing) != '=') value = read_word(lexing);
  if (blank_before || blank_behind || key.text.empty()) {
    complain_of_space(lexing, equals, key, value);
  }
  if (!at_end(lexing) && peek(lexing) == '=') {
    complain(lexing,
             "second-equals",
             lexing.at,
             "two `=` stand in one pair",
             "",
             "Write one `key=value`, or put the value in quotes.");
    while (!at_word_end(lexing)) ++lexing.at;
  }
  if (!key.text.empty()) statement.pairs.push_back({std::move(key), std::move(value)});
}

// One word or one pair.
void read_item(Lexing& lexing, Statement& statement) {
  const std::size_t start = lexing.at;
  Word word{.text = {}, .source = &lexing.source, .offset = start, .quoted = false};
  if (peek(lexing) != '=') word = read_word(lexing);
  const std::size_t behind = lexing.at;
  skip_blanks(lexing);
  const bool equals = !at_end(lexing) && peek(lexing) == '=' && !word.quoted;
  if (equals) {
    read_pair(lexing, statement, std::move(word), lexing.at != behind);
    return;
  }
  if (!at_end(lexing) && peek(lexing) == '=') {  // "key"=value
    complain(lexing,
             "text-after-quote",
             lexing.at,
             "an `=` stands right behind a closing quote",
             "",
             "Write the key without quotes.");
    read_pair(lexing, statement, std::move(word), false);
    return;
  }
  if (!statement.pairs.empty()) {
    complain(lexing,
             "word-after-pair",
             start,
             "the word " + quote(word.text) + " stands behind a `key=value`",
             "A statement is words first, then pairs.",
             "Move it before the first pair, or write it as a pair.");
  }
  statement.words.push_back(std::move(word));
}

bool has_control_character(Lexing& lexing) {
  const std::string& text = lexing.source.text();
  for (std::size_t at = lexing.at; at < lexing.end; ++at) {
    const auto c = static_cast<unsigned char>(text[at]);
    if ((c >= 0x20 && c != 0x7f) || c == '\t') continue;
    complain(lexing,
             "control-character",
             at,
             "a character that cannot be seen stands in this line",
             "",
             "Write the line anew.");
    return true;
  }
  return false;
}

// Reads the line from `lexing.at` into the statement it belongs to.
void read_line(Lexing& lexing) {
  const std::size_t start = lexing.at;
  skip_blanks(lexing);
  if (at_end(lexing) || peek(lexing) == '#') return;
  const bool indented = lexing.at != start;
  if (!indented) lexing.skip_line = false;
  if (has_control_character(lexing)) {
    lexing.skip_line = lexing.skip_line || !indented;
    return;
  }
  if (lexing.skip_line) return;  // It continues a line that could not be read.
  if (indented && lexing.statements.empty()) {
    complain(lexing,
             "indented-first-line",
             lexing.at,
             "the first line begins with a blank",
             "A line that begins with a blank continues the statement above it.",
             "Begin the statement in the first column.");
  }
  if (!indented || lexing.statements.empty()) lexing.statements.emplace_back();
  Statement& statement = lexing.statements.back();
  while (!at_end(lexing)) {
    skip_blanks(lexing);
    if (at_end(lexing) || peek(lexing) == '#') break;
    read_item(lexing, statement);
  }
}

void complain_of_repeated_keys(const Statement& statement, Complaints& complaints) {
  if (statement.pairs.size() < 2) return;
  std::unordered_map<std::string_view, const Word*> first;
  for (const Pair& pair : statement.pairs) {
    const auto [known, is_new] = first.try_emplace(pair.key.text, &pair.key);
    if (is_new || complaints.size() > most_complaints) continue;
    complaints.push_back({.kind = kind("key-twice"),
                          .headline = quote(pair.key.text + "=") + " stands twice in one statement",
                          .places = {place_of(pair.key), place_of(*known->second, "the first")},
                          .why = {},
                          .instead = "Write it once."});
  }
}

Complaint no_text(const SourceText& source, std::size_t offset) {
  const bool nul = source.text()[offset] == '\0';
  complaints::Place place =
      source.place(offset, nul ? "a byte of zero" : "a byte that is no character in UTF-8");
  place.line_text = only_text(place.line_text);
  return {.kind = kind("not-text"),
          .headline = "this file is no plain text",
          .places = {source.place(offset,
                                  nul ? "a byte of zero" : "a byte that is no character in UTF-8")},
          .why = nul ? "A byte of zero stands in programs, pictures and office documents, "
                       "not in text."
                     : "The file was saved in another encoding than UTF-8.",
          .instead = "Save it from a text editor as plain text, UTF-8."};
}

}  // namespace

std::vector<Statement> lex(const SourceText& source, Complaints& complaints) {
  if (const auto offset = first_byte_that_is_no_text(source.text())) {
    complaints.push_back(no_text(source, *offset));
    return {};
  }
  Lexing lexing{source, complaints, {}};
  for (std::size_t line = 0; line < source.line_count(); ++line) {
    lexing.at = source.line_start(line);
    lexing.end = source.line_end(line);
    read_line(lexing);
  }
  // A statement of pairs alone, or one whose words were all unreadable, says nothing.
  std::erase_if(lexing.statements, [&complaints](const Statement& statement) {
    if (!statement.words.empty()) return false;
    if (!statement.pairs.empty() && complaints.size() <= most_complaints) {
      const Word& key = statement.pairs.front().key;
      complaints.push_back({.kind = kind("unknown-statement"),
                            .headline = "a statement begins with " + quote(key.text + "="),
                            .places = {place_of(key)},
                            .why = "A statement begins with a word of its own.",
                            .instead = "Write the word first, or indent the line if it "
                                       "continues the one above."});
    }
    return true;
  });
  for (const Statement& statement : lexing.statements) {
    complain_of_repeated_keys(statement, complaints);
  }
  return std::move(lexing.statements);
}

}  // namespace idlepoint::language
