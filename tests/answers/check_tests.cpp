// Oracle: slips put into drawings on purpose, and printed volts worked by hand.
#include <algorithm>

#include "answers/asked.hpp"

namespace idlepoint::tests {
namespace {

std::vector<std::string> kinds_of(const answers::Check& check) {
  std::vector<std::string> kinds;
  for (const auto& complaint : check.complaints) {
    kinds.emplace_back(complaints::facts(complaint.kind).name);
  }
  return kinds;
}

using Kinds = std::vector<std::string>;

const std::string printed_divider = R"(stage "Divider"
rail     vcc 10V resistance=0R
resistor R1 vcc mid 10k
resistor R2 mid gnd 10k
resistor R3 vcc low 99k
resistor R4 low gnd 1k
)";

}  // namespace

TEST_CASE("The practice stage is copied right", "[answers][identity]") {
  const auto check = check_of(drawn(practice_stage()));
  CHECK(kinds_of(check).empty());
  CHECK(answers::is_good(check));
}

TEST_CASE("A printed voltage disagrees beyond 10 % and 50 mV, and the worst comes first",
          "[answers][analytic]") {
  const auto check = check_of(drawn(printed_divider + R"(printed volts mid gnd 5.3V
printed volts low gnd 55mV
printed volts vcc mid 4V
printed volts mid low 6.1V
)"));
  REQUIRE(check.printed.size() == 4);
  // 4.9 V for 6.1 and 5 V for 4: beyond 10 %. 5 V for 5.3: 5.7 %. 100 mV for 55: 45 mV.
  CHECK_THAT(check.printed[0].off_v, WithinRel(-1.2, 1e-5));
  CHECK_THAT(check.printed[1].off_v, WithinRel(1.0, 1e-5));
  CHECK_THAT(check.printed[2].off_v, WithinRel(-0.3, 1e-5));
  CHECK_THAT(check.printed[3].off_v, WithinRel(0.045, 1e-4));
  CHECK(check.printed[1].disagrees);
  CHECK_FALSE(check.printed[2].disagrees);
  CHECK_FALSE(check.printed[3].disagrees);
  CHECK_FALSE(answers::is_good(check));
}

TEST_CASE("Agreement with the service sheet is good", "[answers][analytic]") {
  CHECK(answers::is_good(check_of(drawn(printed_divider + "printed volts mid gnd 5.2V\n"))));
}

TEST_CASE("A transistor with collector and emitter exchanged is noticed", "[answers][identity]") {
  const std::string text = R"(stage "Exchanged"
rail     vcc 10V
resistor R1 vcc b 100k
npn      Q1 c=gnd b=b e=c type=small
resistor R2 vcc c 1k
type npn small saturation_current=10fA gain=250
)";
  const auto check = check_of(drawn(text));
  const auto kinds = kinds_of(check);
  const auto found = std::find(kinds.begin(), kinds.end(), "reversed-transistor");
  REQUIRE(found != kinds.end());
  const auto& complaint = check.complaints[static_cast<std::size_t>(found - kinds.begin())];
  CHECK(complaint.places[0].line == 4);
  CHECK(answers::is_good(check));  // a warning: the drawing may be meant so
}

TEST_CASE("A transistor that carries nothing is noticed, unless it was taken out",
          "[answers][identity]") {
  const std::string text = R"(stage "Idle"
rail     vcc 10V
resistor R1 b gnd 100k
npn      Q1 c=c b=b e=gnd type=small
resistor R2 vcc c 1k
type npn small saturation_current=10fA gain=250
)";
  CHECK(kinds_of(check_of(drawn(text))) == Kinds{"idle-transistor"});
  CHECK(kinds_of(check_of(with_fault(drawn(text), "Q1 absent"))).empty());
  CHECK(kinds_of(check_of(with_fault(drawn(text), "Q1 open c"))).empty());
}

TEST_CASE("A trimmer that moves nothing is noticed", "[answers][analytic]") {
  const auto check = check_of(drawn(printed_divider + R"(trimmer  VR1 vcc w gnd 10k
resistor R5 w gnd 1M
reading  joint volts mid gnd
adjust   VR1 until joint reads 5V
)"));
  CHECK(kinds_of(check) == Kinds{"trimmer-without-effect"});
}

TEST_CASE("A target that no position reaches is noticed, and the answer is no",
          "[answers][analytic]") {
  const auto check = check_of(drawn(printed_divider + R"(trimmer  VR1 vcc w gnd 10k
resistor R5 w gnd 1M
reading  wiper volts w gnd
adjust   VR1 until wiper reads 12V
)"));
  CHECK(kinds_of(check) == Kinds{"adjust-out-of-reach"});
  CHECK(check.out_of_reach);
  CHECK_FALSE(answers::is_good(check));
}

TEST_CASE("A refused drawing is its complaints, and no number", "[answers][identity]") {
  auto file = required(language::read_stage(
      "stage \"Loose end\"\nrail vcc 10V\nresistor R1 vcc loose 1k\n", "test.stage"));
  const auto checked = circuit::check_circuit(file.circuit);
  REQUIRE_FALSE(checked.has_value());
  const auto check = answers::refuse_drawing(file.circuit, checked.complaints());
  CHECK_FALSE(check.complaints.empty());
  CHECK_FALSE(check.state.has_value());
  CHECK(check.printed.empty());
  CHECK_FALSE(answers::is_good(check));
}

}  // namespace idlepoint::tests
