// Oracle: the sentences of docs/commands.md and of the bench, written out by hand.
#include "answers/asked.hpp"
#include "report/hot_words.hpp"

namespace idlepoint::tests {
namespace {

const std::string emitter_resistor = R"(
rail vp 30V
resistor R611 vp out 0R47 power=5W
resistor R612 out gnd 1k power=0.5W
npn Q1 c=vp b=out e=gnd type=t
type npn t saturation_current=1fA gain=100
load LS1 out gnd 8R
)";

std::string words(const std::vector<answers::HotPart>& parts, bool is_played) {
  const auto setup = drawn(emitter_resistor);
  answers::HotList hot{parts, {}};
  if (is_played) hot.full_output = answers::full_output(*setup.stage, {});
  return report::hot_section(*setup.stage, hot, {.width = 100, .bold = false});
}

constexpr circuit::PartId r611{0};
constexpr circuit::PartId r612{1};
constexpr circuit::PartId hot_q1{2};

}  // namespace

TEST_CASE("A hot part is told with its watts, its rating and when", "[report][identity]") {
  CHECK(words({{r611, true, 2.94, 5.0, {}}}, true) ==
        "What runs hot:\n"
        "  R611 takes 2.9 W of its 5 W when played loud.\n"
        "Played loud: one long sine as large as the rails allow, 15.0 V peak into 8R of LS1; a "
        "transistor at\nthe level that heats it most, its heat sink as warm as at rest. Music asks "
        "for a third of that or\nless.\n");
  CHECK(words({{hot_q1, false, 16.4, 30.2, {}}}, false) ==
        "What runs hot:\n  Q1 takes 16 W of the 30 W that it may have as warm as it is at rest.\n");
}

TEST_CASE("A resistor above its rating gets another, one near it better advice",
          "[report][identity]") {
  CHECK(words({{r612, false, 0.6, 0.5, 1.0}}, false) ==
        "What runs hot:\n  R612 takes 0.60 W of its 0.5 W at rest: fit one of 1 W.\n");
  CHECK(words({{r612, false, 0.4, 0.5, 1.0}}, false) ==
        "What runs hot:\n  R612 takes 0.40 W of its 0.5 W at rest. One of 1 W would last.\n");
}

TEST_CASE("Where nothing is hot nothing is said", "[report][identity]") {
  CHECK(words({}, true).empty());
}

}  // namespace idlepoint::tests
