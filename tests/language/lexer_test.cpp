// Oracle: the grammar of docs/language.md, statement by statement.
#include "language/lexer.hpp"

#include <catch2/catch.hpp>

#include "language/reading.hpp"

namespace idlepoint::language {
namespace {

// Words and pairs written with bars between, one statement a line: `resistor|R8|tolerance=5%`.
std::string taken_apart(const std::string& text) {
  const SourceText source("test", text, 0);
  complaints::Complaints complaints;
  std::string shown;
  for (const Statement& statement : lex(source, complaints)) {
    std::string line;
    for (const Word& word : statement.words) line += (line.empty() ? "" : "|") + word.text;
    for (const Pair& pair : statement.pairs) line += "|" + pair.key.text + "=" + pair.value.text;
    shown += line + "\n";
  }
  CHECK(complaints.empty());
  return shown;
}

}  // namespace

TEST_CASE("A statement is words, then pairs", "[language][identity]") {
  CHECK(taken_apart("resistor R8 a b 820R tolerance=5% power=3W") ==
        "resistor|R8|a|b|820R|tolerance=5%|power=3W\n");
}

TEST_CASE("An indented line continues the statement above it", "[language][identity]") {
  CHECK(taken_apart("npn Q4 c=vpos\n  b=x\n\te=out\n") == "npn|Q4|c=vpos|b=x|e=out\n");
  CHECK(taken_apart("npn Q4\n\n# between\n   # indented\n  c=vpos\n") == "npn|Q4|c=vpos\n");
}

TEST_CASE("A comment runs to the end of its line, but not from inside quotes",
          "[language][identity]") {
  CHECK(taken_apart("# all of it\nrail vpos 28V # the rest\nlink L1 a b#close\n") ==
        "rail|vpos|28V\nlink|L1|a|b\n");
  CHECK(taken_apart("stage \"R#12\" # title\n") == "stage|R#12\n");
}

TEST_CASE("Quotes hold blanks, and two escapes", "[language][identity]") {
  CHECK(taken_apart(R"(stage "a \"b\" c:\\d  e")") == "stage|a \"b\" c:\\d  e\n");
  CHECK(taken_apart("type npn x source=\"a book, 1970\"") == "type|npn|x|source=a book, 1970\n");
  CHECK(taken_apart("stage \"\"") == "stage|\n");
}

TEST_CASE("A byte order mark, CRLF line ends and a missing last end are accepted",
          "[language][identity]") {
  CHECK(taken_apart("\xef\xbb\xbflink L1 a b\r\nlink L2 b c") == "link|L1|a|b\nlink|L2|b|c\n");
  CHECK(taken_apart("") == "");
  CHECK(taken_apart("\r\n\r\n") == "");
}

TEST_CASE("Columns count characters, not bytes", "[language][identity]") {
  const SourceText source("test", "stage \"\u00b5\u03a9\u20ac\" x\n  y", 0);
  complaints::Complaints complaints;
  const auto statements = lex(source, complaints);
  REQUIRE(statements.size() == 1);
  REQUIRE(statements[0].words.size() == 4);
  const complaints::Place x = place_of(statements[0].words[2]);
  CHECK(x.line == 1);
  CHECK(x.column == 13);
  CHECK(x.line_text == "stage \"\u00b5\u03a9\u20ac\" x");
  const complaints::Place y = place_of(statements[0].words[3]);
  CHECK(y.line == 2);
  CHECK(y.column == 3);
}

TEST_CASE("The place in a line as long as a file is exact, and its neighbourhood is shown",
          "[language][identity]") {
  std::string text = "link L1 ";
  for (int count = 0; count < 50'000; ++count) text += "\u00b5 ";
  text += "end";
  const SourceText source("test", text, 0);
  complaints::Complaints complaints;
  const auto statements = lex(source, complaints);
  const complaints::Place place = place_of(statements[0].words.back());
  CHECK(place.column == 8 + 100'000 + 1);
  CHECK(place.line_text.size() < 200);
  CHECK_THAT(place.line_text, Catch::Matchers::EndsWith("end"));
}

TEST_CASE("What does not fit the grammar is complained of where it stands",
          "[language][identity]") {
  CHECK(kinds_of("  stage \"x\"\n" + around("")) == "indented-first-line@1:3");
  CHECK(kinds_of(around("stage \"x\n")) == "quote-not-closed@4:7");
  CHECK(kinds_of(around("stage \"x\\y\"\n")) == "quote-escape@4:9");
  CHECK(kinds_of(around("stage \"x\"y\n")) == "text-after-quote@4:10");
  CHECK(kinds_of(around("stage x\"y\"\n")) == "text-after-quote@4:8");
  CHECK(kinds_of(around("resistor R8 x gnd 1k \"tolerance\"=5%\n")) == "text-after-quote@4:33");
  CHECK(kinds_of(around("resistor R8 x gnd 1k tolerance =5%\n")) == "space-around-equals@4:32");
  CHECK(kinds_of(around("resistor R8 x gnd 1k tolerance= 5%\n")) == "space-around-equals@4:31");
  CHECK(kinds_of(around("resistor R8 x gnd 1k tolerance = 5%\n")) == "space-around-equals@4:32");
  CHECK(kinds_of(around("resistor R8 x gnd 1k tolerance=5%=J\n")) == "second-equals@4:34");
  CHECK(kinds_of(around("resistor R8 x gnd tolerance=5% 1k\n")) == "word-after-pair@4:32");
  CHECK(kinds_of(around("resistor R8 x gnd 1k power=1W tolerance=5% power=3W\n")) ==
        "key-twice@4:44");
  CHECK(kinds_of(around("resistor R8\x01 x gnd 1k\n   tolerance=5%\n")) ==
        "control-character@4:12");
}

TEST_CASE("What is no text is refused in one complaint", "[language][identity]") {
  CHECK(kinds_of(std::string("rail vpos 28V\nlink\0 L1 a b\n", 27)) == "not-text@2:5");
  CHECK(kinds_of("capacitor C1 a b 47\xb5") == "not-text@1:20");    // Latin-1
  CHECK(kinds_of("stage \"\xc0\xaf\"") == "not-text@1:8");          // overlong
  CHECK(kinds_of("stage \"\xed\xa0\x80\"") == "not-text@1:8");      // a surrogate
  CHECK(kinds_of("stage \"\xf4\x90\x80\x80\"") == "not-text@1:8");  // above U+10FFFF
  CHECK(kinds_of("stage \"\xe2\x82") == "not-text@1:8");            // cut off
}

}  // namespace idlepoint::language
