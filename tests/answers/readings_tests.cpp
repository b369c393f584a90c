// Oracle: Ohm's law on a divider, worked by hand.
#include "answers/asked.hpp"

namespace idlepoint::tests {
namespace {

using answers::ReadingUnit;

// 10 V over 10k and 10k: 5 V at the joint, 0.5 mA, 5 mW.
const std::string divider = R"(stage "Divider"
rail     vcc 10V resistance=0R
resistor R1 vcc mid 10k
resistor R2 mid gnd 10k
reading  joint volts mid gnd
reading  drain amps vcc
reading  heat  watts R1
reading  turn  volts mid mid
limit    joint 4.9V to 5.1V
)";

}  // namespace

TEST_CASE("A divider reads half its rail", "[answers][analytic]") {
  const auto answer = readings_of(drawn(divider));
  REQUIRE(answer.readings.size() == 4);
  CHECK(answer.readings[0].name == "joint");
  CHECK_THAT(answer.readings[0].value, WithinRel(5.0, 1e-6));
  CHECK(answer.readings[0].unit == ReadingUnit::volt);
  CHECK_THAT(answer.readings[1].value, WithinRel(0.5e-3, 1e-6));
  CHECK(answer.readings[1].unit == ReadingUnit::ampere);
  CHECK_THAT(answer.readings[2].value, WithinRel(2.5e-3, 1e-6));
  CHECK(answer.readings[2].unit == ReadingUnit::watt);
  CHECK_THAT(answer.state.total_power_w(), WithinRel(5e-3, 1e-6));
}

TEST_CASE("A meter of 10 megohms across 5 kilohms pulls the reading down by 0.05 %",
          "[answers][analytic]") {
  const auto answer = readings_of(drawn(divider));
  REQUIRE(answer.readings[0].as_metered.has_value());
  CHECK_THAT(*answer.readings[0].as_metered, WithinRel(5.0 * 10e6 / (10e6 + 5e3), 1e-6));
}

TEST_CASE("An old meter of 50 kilohms shows a tenth less on a 10 kilohm divider",
          "[answers][analytic]") {
  const auto answer = readings_of(drawn(divider + "meter input=50k\n"));
  CHECK_THAT(*answer.readings[0].as_metered, WithinRel(5.0 * 50.0 / 55.0, 1e-6));
}

TEST_CASE("Each reading has the meter on it alone", "[answers][analytic]") {
  const auto answer = readings_of(drawn(divider + "meter input=50k\nreading top volts vcc mid\n"));
  CHECK_THAT(*answer.readings[0].as_metered, WithinRel(5.0 * 50.0 / 55.0, 1e-6));
  CHECK_THAT(*answer.readings[4].as_metered, WithinRel(5.0 * 50.0 / 55.0, 1e-6));
}

TEST_CASE("A meter shows volts alone, and nothing between a point and itself",
          "[answers][identity]") {
  const auto answer = readings_of(drawn(divider));
  CHECK_FALSE(answer.readings[1].as_metered.has_value());
  CHECK_FALSE(answer.readings[2].as_metered.has_value());
  CHECK(answer.readings[3].as_metered == 0.0);
}

TEST_CASE("A limit is judged where there is one", "[answers][identity]") {
  const auto sound = readings_of(drawn(divider));
  CHECK(sound.readings[0].within_limit == true);
  CHECK_FALSE(sound.readings[1].within_limit.has_value());
  CHECK_FALSE(answers::any_limit_broken(sound.readings));

  const auto broken = readings_of(with_fault(drawn(divider), "R2 is 12k"));
  CHECK(broken.readings[0].within_limit == false);
  CHECK(answers::any_limit_broken(broken.readings));
}

TEST_CASE("A temperature is given in degrees Celsius", "[answers][identity]") {
  const auto answer = readings_of(drawn(R"(stage "One diode"
ambient  31C
rail     vcc 5V
resistor R1 vcc a 4k7
diode    D1 anode=a cathode=gnd type=small
reading  body celsius D1
limit    body 20C to 40C
type diode small saturation_current=1fA
)"));
  CHECK_THAT(answer.readings[0].value, WithinAbs(31.0, 1e-9));
  CHECK(answer.readings[0].within_limit == true);
}

TEST_CASE("Halved rails halve a divider's reading", "[answers][analytic]") {
  const auto answer = readings_of(drawn(divider, {.rails = 0.5}));
  CHECK_THAT(answer.readings[0].value, WithinRel(2.5, 1e-6));
}

TEST_CASE("A fuse above 2.1 times its rating is said to blow", "[answers][identity]") {
  const std::string fused = R"(stage "Fuse"
rail     vcc 10V resistance=0R
fuse     F1 vcc a 1A resistance=0R
)";
  const auto warns = [](const std::string& text) { return readings_of(drawn(text)).warnings; };
  CHECK(warns(fused + "resistor R1 a gnd 11R\n").empty());
  CHECK(warns(fused + "resistor R1 a gnd 5R\n").front().find("may blow") != std::string::npos);
  CHECK(warns(fused + "resistor R1 a gnd 4R\n").front().find("blows") != std::string::npos);
}

}  // namespace idlepoint::tests
