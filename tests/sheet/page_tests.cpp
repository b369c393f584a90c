// Oracle: HTML's own rule that a script element ends at "</script", whatever stands in it; and the
// JSON of the other commands, letter for letter.
#include <nlohmann/json.hpp>

#include "answers/asked.hpp"
#include "answers/sheet.hpp"
#include "report/html_sheet.hpp"
#include "report/json_readings.hpp"
#include "report/json_sheet.hpp"
#include "report/page_files.hpp"

namespace idlepoint::tests {
namespace {

// A divider whose title is what a page must not take for its own words.
const char* hostile =
    "stage \"</script><script>alert(1)</script>&amp;\"\nrail vp +10V resistance=0R\n"
    "resistor R1 vp m 1k\nresistor R2 m gnd 1k\nreading middle volts m gnd\n";

answers::SheetChannel channel_of(const std::string& text) {
  auto outcome = answers::ask_sheet(drawn(text), {});
  REQUIRE(std::holds_alternative<answers::SheetChannel>(outcome));
  return std::get<answers::SheetChannel>(std::move(outcome));
}

std::size_t count_of(std::string_view text, std::string_view what) {
  std::size_t count = 0;
  for (auto at = text.find(what); at != std::string_view::npos; at = text.find(what, at + 1)) {
    ++count;
  }
  return count;
}

}  // namespace

TEST_CASE("The page has one place for its answers", "[sheet][identity]") {
  CHECK(count_of(report::page_of_the_sheet(), report::answers_mark) == 1);
}

TEST_CASE("A title with markup in it ends no script of the page", "[sheet][identity]") {
  const std::string html = report::html_of({channel_of(hostile)});
  CHECK(count_of(html, "<script") == count_of(report::page_of_the_sheet(), "<script"));
  CHECK(count_of(html, "</script") == count_of(report::page_of_the_sheet(), "</script"));
  CHECK(count_of(html, "alert(1)") > 0);
}

TEST_CASE("The sheet holds what `readings --json` prints", "[sheet][identity]") {
  const auto channel = channel_of(hostile);
  const auto sheet = nlohmann::json::parse(report::json_of({channel}));
  const auto readings = nlohmann::json::parse(report::json_of(channel.readings));
  CHECK(sheet["command"] == "sheet");
  CHECK(sheet["channels"][0]["readings"] == readings);
  CHECK(sheet["channels"][0]["drawing"]["title"] == "</script><script>alert(1)</script>&amp;");
}

TEST_CASE("Blanks go from between the words of a JSON text and stay inside them",
          "[sheet][identity]") {
  CHECK(report::for_a_page("{\n  \"a b\": \"c \\\" < d\",\n  \"e\": [1, 2]\n}\n") ==
        "{\"a b\":\"c \\\" \\u003c d\",\"e\":[1,2]}");
}

}  // namespace idlepoint::tests
