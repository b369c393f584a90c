// Oracle: the table and the sentences as a colleague would say them, written out by hand.
#include "answers/asked.hpp"
#include "report/answering_words.hpp"

namespace idlepoint::tests {
namespace {

using answers::Answering;

const std::string stage = R"(
rail vp 20V
npn Q1 c=vp b=b e=e type=t
npn Q2 c=vp b=b e=e type=t
resistor R1 vp b 10k
trimmer VR1 e gnd 100R spare=tied
reading idle volts e gnd
adjust VR1 until idle reads 20mV
type npn t saturation_current=1pA gain=50
)";

constexpr circuit::PartId q1{0};
constexpr circuit::PartId q2{1};
constexpr circuit::ReadingId idle{0};

std::string words(const std::vector<Answering>& answering) {
  const auto setup = drawn(stage);
  return report::answering_section(*setup.stage, answering, {.width = 100, .bold = false});
}

}  // namespace

TEST_CASE("What the standing current hears is a line a part and one conclusion",
          "[report][identity]") {
  CHECK(
      words({{q1, idle, 0.020, 0.0021, -0.0002, 0.00005}, {q2, idle, 0.020, -0.003, {}, 0.0}}) ==
      "What the standing current hears, trimmers untouched. `idle` is 20.0 mV, and would move by:\n"
      "\n"
      "       base 10 mV lower   gain halved   gain doubled\n"
      "  Q1            +2.1 mV      -0.20 mV        nothing\n"
      "  Q2            -3.0 mV             -        nothing\n"
      "\n"
      "For the standing current base volts matter, gain hardly: no need to select for gain on its "
      "account.\n");
}

TEST_CASE("A gain that matters is named", "[report][identity]") {
  const auto both = words({{q1, idle, 0.020, 0.002, -0.005, 0.001}});
  CHECK(both.find("Gain matters here too, that of Q1: set the idle again after a change.") !=
        std::string::npos);
  const auto neither = words({{q1, idle, 0.020, 0.0001, 0.0, 0.0}});
  CHECK(neither.find("Neither base volts nor gain matter to the standing current here.") !=
        std::string::npos);
  CHECK(words({}).empty());
}

}  // namespace idlepoint::tests
