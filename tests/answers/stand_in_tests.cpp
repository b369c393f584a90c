// Oracle: ideal junctions in closed form, V = m U ln(I/Is + 1) and dV/dT = (V - Wg - 3 m U)/T at
// constant current [GummelPoon1970]; what a complementary pair needs of its string.
#include <cmath>
#include <span>

#include "answers/alone.hpp"
#include "answers/asked.hpp"
#include "answers/control_step.hpp"
#include "answers/stand_in_test.hpp"
#include "language/replacement_text.hpp"
#include "solve/solve_stage.hpp"
#include "values/constants.hpp"

namespace idlepoint::tests {
namespace {

constexpr double room_k = 298.15;
constexpr double gap_v = 1.206;  // models.md's default

// An ideal complementary pair with 10 mA through its string of ideal diodes.
const char* const followers =
    "stage \"Pair\"\nrail vpos +20V resistance=0R\nrail vneg -20V resistance=0R\n"
    "feed I1 10mA from=vpos into=hi\nhold V1 lo gnd -0.62V\n"
    "diode D1 anode=hi cathode=x type=stack junctions=2 on=HS coupling=80%\n"
    "trimmer VR1 x lo 100R at=5% spare=tied\n"
    "npn Q1 c=vpos b=hi e=e1 type=n on=HS\npnp Q2 c=vneg b=lo e=e2 type=p on=HS\n"
    "resistor R1 e1 out 0R22\nresistor R2 out e2 0R22\nresistor R3 out gnd 1M\n"
    "heatsink HS resistance=2K/W\nsignal output=out\n"
    "reading idle volts e1 e2\nadjust VR1 until idle reads 10mV within 1mV\n"
    "type diode stack saturation_current=1pA\ntype diode single saturation_current=2pA\n"
    "type npn n saturation_current=1pA gain=1M\ntype pnp p saturation_current=1pA gain=1M\n"
    "type npn small saturation_current=0.1pA gain=1M\n";

circuit::StoodIn stood_in(const answers::Setup& setup, const std::string& text) {
  const auto replacement = required(language::read_replacement(text, *setup.stage));
  auto made = circuit::stand_in(setup.stage, std::get<circuit::StandIn>(replacement), 0);
  if (const auto* why = std::get_if<std::string>(&made)) FAIL(*why);
  return std::get<circuit::StoodIn>(std::move(made));
}

answers::StandInTest tested(const std::string& text) {
  const auto setup = drawn(followers);
  const auto state = std::get<solve::OperatingPoint>(solve::solve_cold(setup.stage));
  const auto part = *circuit::find_part(*setup.stage, "D1");
  const auto result = answers::test_stand_in(setup.stage, state, part, stood_in(setup, text));
  REQUIRE(result.has_value());
  return *result;
}

double junction_v(double amps, double saturation_a) {
  return room_thermal_v * std::log(amps / saturation_a + 1.0);
}

double junction_v_per_k(double volts) { return (volts - gap_v - 3.0 * room_thermal_v) / room_k; }

}  // namespace

TEST_CASE("A stack and its stand-in hold the volts of their junctions at the string's current",
          "[answers][analytic]") {
  const auto test = tested("D1=2 single + 3R3");
  CHECK_THAT(test.amps, WithinRel(10e-3, 1e-5));
  CHECK_THAT(test.old_v, WithinRel(2.0 * junction_v(10e-3, 1e-12), 1e-6));
  CHECK_THAT(test.new_v, WithinRel(2.0 * junction_v(10e-3, 2e-12) + 0.033, 1e-6));
}

TEST_CASE("A junction gives way with temperature as its law says", "[answers][analytic]") {
  const auto test = tested("D1=3 single");
  CHECK_THAT(test.old_v_per_k, WithinRel(2.0 * junction_v_per_k(junction_v(10e-3, 1e-12)), 1e-4));
  CHECK_THAT(test.new_v_per_k, WithinRel(3.0 * junction_v_per_k(junction_v(10e-3, 2e-12)), 1e-4));
  CHECK(test.coupling == 0.8);
}

TEST_CASE("A spreader multiplies its own base voltage", "[answers][analytic]") {
  // 1k from base to emitter and 1k to the collector: with no base current twice the base voltage,
  // which is that of the string's current less what the resistors take.
  const auto test = tested("D1=spreader small 1k 1k");
  double volts = 1.2;
  for (int k = 0; k < 50; ++k) volts = 2.0 * junction_v(10e-3 - volts / 2e3, 1e-13);
  CHECK_THAT(test.new_v, WithinRel(volts, 1e-4));
}

TEST_CASE("A part with a leg on ground is tested as any other", "[answers][analytic]") {
  const auto setup = drawn(
      "stage \"Low side\"\nrail vneg -10V resistance=0R\nresistor R1 x vneg 1k\n"
      "diode D1 anode=gnd cathode=x type=d\ntype diode d saturation_current=1pA\n");
  const auto part = *circuit::find_part(*setup.stage, "D1");
  const circuit::VoltsBetween points{circuit::ground, *circuit::find_node(*setup.stage, "x")};
  const auto volts =
      answers::volts_alone(setup.stage, std::span(&part, 1), points, {10e-3, room_k});
  REQUIRE(volts.has_value());
  CHECK_THAT(*volts, WithinRel(junction_v(10e-3, 1e-12), 1e-6));
}

TEST_CASE("A pair needs of its string what its own junctions lose at their current",
          "[answers][analytic]") {
  const auto setup = drawn(followers);
  const auto state = std::get<solve::OperatingPoint>(solve::solve_cold(setup.stage));
  const double idle_a = state.read(*setup.stage, setup.stage->readings[0].probe) / 0.44;
  const double needed = 2.0 * junction_v_per_k(junction_v(idle_a, 1e-12));
  const auto test = tested("D1=2 single");
  REQUIRE(test.needed_v_per_k.has_value());
  CHECK_THAT(*test.needed_v_per_k, WithinRel(needed, 2e-3));
}

TEST_CASE("Ten times the saturation current is one decade of thermal voltage less at the base",
          "[answers][analytic]") {
  const auto setup = drawn(followers);
  const auto state = std::get<solve::OperatingPoint>(solve::solve_cold(setup.stage));
  const auto step = answers::find_control_step(
      setup.stage,
      state,
      {*circuit::find_part(*setup.stage, "Q1"), *circuit::find_type(*setup.stage, "small")});
  REQUIRE(step.has_value());
  CHECK_THAT(step->after_v - step->before_v, WithinRel(room_thermal_v * std::log(10.0), 1e-5));
  CHECK_FALSE(step->half_width_v.has_value());
}

TEST_CASE("A transistor alone has the same base voltage in either polarity",
          "[answers][identity]") {
  const auto setup = drawn(followers);
  const auto npn = answers::control_volts(
      setup.stage, *circuit::find_part(*setup.stage, "Q1"), 5.0, {50e-3, room_k});
  const auto pnp = answers::control_volts(
      setup.stage, *circuit::find_part(*setup.stage, "Q2"), 5.0, {50e-3, room_k});
  REQUIRE(npn.has_value());
  REQUIRE(pnp.has_value());
  CHECK_THAT(*npn, WithinRel(junction_v(50e-3, 1e-12), 1e-5));
  CHECK_THAT(*pnp, WithinRel(*npn, 1e-9));
}

}  // namespace idlepoint::tests
