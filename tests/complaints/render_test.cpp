// Oracle: the layout as the house draws it, letter by letter.
#include "complaints/render.hpp"

#include <catch2/catch.hpp>

namespace idlepoint::complaints {
namespace {

Place place(int line, int column, std::string text, std::string remark) {
  return {.file = "quarry-30w.stage",
          .line = line,
          .column = column,
          .line_text = std::move(text),
          .remark = std::move(remark)};
}

}  // namespace

TEST_CASE("A complaint with two places is laid out to be read aloud", "[complaints][approval]") {
  const Complaint complaint{
      .kind = kind("unknown-node"),
      .headline = "nothing sets the voltage of `drive`",
      .places = {place(23,
                       20,
                       "npn Q4 c=vpos b=drive e=out type=driver-npn",
                       "`drive` meets only this lead"),
                 place(12,
                       22,
                       "resistor R9 vas drve 2k2",
                       "`drve` meets only this lead. Nearest known: `drive`")},
      .why = "At DC every point must be tied to ground through parts that conduct.",
      .instead = "Write `drive` on line 12, or join `drive` to the circuit."};
  CHECK(render({complaint}) == R"(quarry-30w.stage: nothing sets the voltage of `drive`.

  line 23, column 20   npn Q4 c=vpos b=drive e=out type=driver-npn
                       here: `drive` meets only this lead
  line 12, column 22   resistor R9 vas drve 2k2
                       here: `drve` meets only this lead. Nearest known: `drive`

  Why   At DC every point must be tied to ground through parts that conduct.
  Do    Write `drive` on line 12, or join `drive` to the circuit.
)");
}

TEST_CASE("A complaint of a whole file shows no line", "[complaints][approval]") {
  const Complaint complaint{
      .kind = kind("file-unreadable"),
      .headline = "the file is a directory",
      .places = {{.file = "a.stage", .line = 0, .column = 0, .line_text = {}, .remark = {}}},
      .why = {},
      .instead = {}};
  CHECK(render({complaint}) == "a.stage: the file is a directory.\n");
}

TEST_CASE("A place in another file names it, and a blank line parts two complaints",
          "[complaints][approval]") {
  Place other = place(3, 5, "type npn x gain=1", "the first");
  other.file = "x.types";
  const Complaint complaint{.kind = kind("type-twice"),
                            .headline = "type `x` stands twice",
                            .places = {place(10, 1, "type npn x gain=2", "the second"), other},
                            .why = {},
                            .instead = "Leave one of the two."};
  const std::string once = render({complaint});
  CHECK(once == R"(quarry-30w.stage: type `x` stands twice.

  line 10, column 1           type npn x gain=2
                              here: the second
  x.types, line 3, column 5   type npn x gain=1
                              here: the first

  Do    Leave one of the two.
)");
  CHECK(render({complaint, complaint}) == once + "\n" + once);
}

TEST_CASE("A user's text cannot move the cursor of a terminal", "[complaints][identity]") {
  const Complaint complaint{.kind = kind("control-character"),
                            .headline = "a bell \x07 and an escape \x1b[2J and a C1 \xc2\x9b",
                            .places = {place(1, 1, "\x1b]0;title\x07 tab\there \x7f", "\x1b[31m")},
                            .why = {},
                            .instead = {}};
  for (const char c : render({complaint})) {
    const unsigned char byte = static_cast<unsigned char>(c);
    CHECK((byte >= 0x20 || c == '\n'));
    CHECK(byte != 0x7f);
    CHECK(byte != 0x9b);
  }
}

TEST_CASE("Long sentences are folded below their first word", "[complaints][approval]") {
  std::string why;
  for (int count = 0; count < 40; ++count) why += "words ";
  why += "end.";
  const Complaint complaint{.kind = kind("out-of-range"),
                            .headline = "x",
                            .places = {place(1, 1, "x", "")},
                            .why = why,
                            .instead = {}};
  const std::string text = render({complaint});
  std::size_t start = 0;
  while (start < text.size()) {
    const std::size_t end = text.find('\n', start);
    CHECK(end - start <= 100);
    start = end + 1;
  }
  CHECK_THAT(text, Catch::Matchers::Contains("\n        words"));
}

}  // namespace idlepoint::complaints
