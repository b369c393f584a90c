// Oracle: counting characters by hand.
#include <catch2/catch.hpp>
#include <sstream>

#include "report/page.hpp"

namespace idlepoint::tests {

TEST_CASE("Sentences are folded at blanks and hang below their first word", "[report][identity]") {
  const report::Page narrow{.width = 12, .bold = false};
  CHECK(report::fold("one two three four", narrow, 0, 2) == "one two\n  three four\n");
  CHECK(report::fold("", narrow) == "\n");
  CHECK(report::fold("averyverylongword x", narrow) == "averyverylongword\nx\n");
}

TEST_CASE("A letter of two bytes is one character wide", "[report][identity]") {
  CHECK(report::width_of("47µ") == 3);
  CHECK(report::padded_right("47µ", 5) == "47µ  ");
  CHECK(report::padded_left("47µ", 5) == "  47µ");
  CHECK(report::padded_left("longer", 3) == "longer");
}

TEST_CASE("Bold print is used where the page has it", "[report][identity]") {
  CHECK(report::emphasised("x", {.width = 80, .bold = false}) == "x");
  CHECK(report::emphasised("x", {.width = 80, .bold = true}) == "\x1b[1mx\x1b[0m");
}

}  // namespace idlepoint::tests
