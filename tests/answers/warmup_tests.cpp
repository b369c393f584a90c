// Oracle: a constant power on a heat sink of resistance R and capacity C: within 2 % of its rise
// after ln(50) RC, and back from an extra rise D after RC ln(D / 2 % of the rise); the cold and the
// warm readings at either end; the rests of heat sinks with one of them still cold.
#include <cmath>

#include "answers/asked.hpp"
#include "answers/soak_shares.hpp"
#include "answers/warmup.hpp"
#include "solve/solve_stage.hpp"

namespace idlepoint::tests {
namespace {

using answers::Warmup;

/// 40 V at 0.5 A at any temperature: a breakdown diode at its test current. 40 K in the end.
const char* const heater =
    "stage \"Constant power\"\n"
    "diode D1 anode=gnd cathode=k type=steady on=HS1\n"
    "feed I1 0.5A from=gnd into=k compliance=none\n"
    "resistor R1 k gnd 1000M\n"
    "heatsink HS1 resistance=2K/W capacity=400J/K\n"
    "reading sink celsius HS1\n"
    "reading volts volts k gnd\n"
    "type diode steady saturation_current=1e-20A zener_voltage=40V zener_test_current=0.5A\n";
constexpr double heater_s = 800.0;

/// What holds the quick heat sink HS1 back, Q1, sits on the slow HS2: a rest exists, and is missed.
const char* const slow_sensor =
    "stage \"Slow sensor\"\n"
    "rail vpos 30V resistance=0R\n"
    "rail vneg -30V resistance=0R\n"
    "feed I1 20mA from=vpos into=hi\n"
    "hold V1 lo gnd -1.2V\n"
    "npn Q1 c=hi b=x e=lo type=small on=HS2\n"
    "resistor R2 hi x 400R\n"
    "resistor R3 x lo 500R\n"
    "npn Q2 c=vpos b=hi e=eh type=power on=HS1\n"
    "pnp Q3 c=vneg b=lo e=el type=power-p on=HS2\n"
    "resistor R5 eh out 0R33\n"
    "resistor R6 out el 0R33\n"
    "resistor R7 out gnd 1k\n"
    "heatsink HS1 resistance=20K/W capacity=10J/K\n"
    "heatsink HS2 resistance=40K/W capacity=1000J/K\n"
    "reading both volts eh el\n"
    "type npn small saturation_current=10fA gain=20000\n"
    "type npn power saturation_current=1pA gain=20000\n"
    "type pnp power-p saturation_current=1pA gain=20000\n";

Warmup warmup_of(const answers::Setup& setup, const answers::WarmupAsked& asked = {}) {
  return settled(answers::ask_warmup(setup, asked));
}

}  // namespace

TEST_CASE("A heat sink has settled within 2 % after the logarithm of 50 time constants",
          "[answers][analytic]") {
  const auto answer = warmup_of(drawn(heater, when_warm));
  for (const std::size_t quantity : {0U, 2U}) {  // The reading of the sink, and the sink.
    REQUIRE(answer.settled_s[quantity].has_value());
    CHECK_THAT(*answer.settled_s[quantity], WithinRel(heater_s * std::log(50.0), 1e-3));
  }
  CHECK(answer.settled_s[1] == 0.0);  // Its volts do not move.
  CHECK_THAT(*answer.all_settled_s, WithinRel(heater_s * std::log(50.0), 1e-3));
  const auto& times_s = answer.course.times_s;
  for (std::size_t k = 1; k < times_s.size(); ++k) {
    CHECK(times_s[k] > times_s[k - 1]);
    CHECK_THAT(answer.course.heatsinks[0].values[k],
               WithinAbs(65.0 - 40.0 * std::exp(-times_s[k] / heater_s), 0.041));
  }
  CHECK(answer.course.heatsinks[0].values.front() == 25.0);
}

TEST_CASE("After loud music a heat sink comes back along its own exponential",
          "[answers][analytic]") {
  const auto answer =
      warmup_of(drawn(heater, when_warm), {.soak = answers::Soak{30.0, 600.0}, .room_step = {}});
  REQUIRE(answer.soak.has_value());
  CHECK(answer.soak->extra_w == std::vector<double>{30.0});
  const double extra_k = 60.0 * (1.0 - std::exp(-600.0 / heater_s));
  CHECK_THAT(answer.soak->swings[2].farthest, WithinRel(65.0 + extra_k, 1e-4));
  CHECK_THAT(answer.soak->swings[2].at_s, WithinAbs(600.0, 1e-6));
  REQUIRE(answer.soak->back_s[2].has_value());
  CHECK_THAT(*answer.soak->back_s[2], WithinRel(heater_s * std::log(extra_k / 0.8), 2e-3));
}

TEST_CASE("In a warmer room a heat sink follows along its own exponential", "[answers][analytic]") {
  const auto answer = warmup_of(drawn(heater, when_warm),
                                {.soak = {}, .room_step = answers::RoomStep{10.0, 900.0}});
  REQUIRE(answer.room_step.has_value());
  const double extra_k = 10.0 * (1.0 - std::exp(-900.0 / heater_s));
  CHECK_THAT(answer.room_step->swings[2].farthest, WithinRel(65.0 + extra_k, 1e-4));
  REQUIRE(answer.room_step->back_s[2].has_value());
  CHECK_THAT(*answer.room_step->back_s[2], WithinRel(heater_s * std::log(extra_k / 0.8), 2e-3));
}

TEST_CASE("A warm-up begins with the cold readings and ends with the warm ones",
          "[answers][identity]") {
  const auto setup = demo("drystone-40w.stage", when_warm);
  const auto answer = warmup_of(setup);
  const auto readings = readings_of(setup);
  for (std::size_t k = 0; k < readings.readings.size(); ++k) {
    CAPTURE(readings.readings[k].name);
    const auto& values = answer.course.readings[k].values;
    CHECK_THAT(values.front(), WithinRel(readings.cold->readings[k].value, 1e-9));
    CHECK_THAT(values.back(), WithinRel(readings.readings[k].value, 1e-6));
  }
  CHECK_THAT(answer.warm->loop_gain(), WithinRel(readings.state.loop_gain(), 1e-6));
}

TEST_CASE("Where nothing can heat nothing moves", "[answers][identity]") {
  const auto setup = drawn(
      "stage \"Cold\"\nrail vp 10V\nresistor R1 vp a 1k\n"
      "resistor R2 a gnd 1k\nreading mid volts a gnd\n");
  const auto answer = warmup_of(setup);
  CHECK_FALSE(answer.can_heat);
  CHECK(answer.course.times_s == std::vector<double>{0.0});
  CHECK(answer.all_settled_s == 0.0);
  const answers::WarmupAsked asked{.soak = answers::Soak{5.0, 60.0}, .room_step = {}};
  CHECK_FALSE(answers::is_good(warmup_of(setup, asked), asked));
}

TEST_CASE("A trimmer too far runs away on the way, at the same place as without time",
          "[answers][identity]") {
  const auto setup = with_fault(drawn(practice_stage(), when_warm), "VR2 at 60%");
  const auto answer = warmup_of(setup);
  const auto story = troubled(answers::ask_readings(setup));
  REQUIRE(answer.trouble.has_value());
  CHECK(answer.trouble->during == answers::WarmupTrouble::During::warm_up);
  CHECK_FALSE(answer.trouble->misses_rest);
  CHECK(answer.trouble->after_s > 1.0);
  CHECK(answer.trouble->story.trouble.kind == story.trouble.kind);
  CHECK(answer.trouble->story.trouble.part == story.trouble.part);
}

// While the slow sink is still as cold as the room the quick one has no rest of its own, though
// both together have one with little heat coming back.
TEST_CASE("A rest whose sensor sits on a slow heat sink is missed", "[answers][identity]") {
  const auto setup = drawn(slow_sensor, when_warm);
  const auto rest = solve::solve_stage(setup.stage, when_warm);
  REQUIRE(std::holds_alternative<solve::OperatingPoint>(rest));
  CHECK(std::get<solve::OperatingPoint>(rest).loop_gain() < 0.5);
  const auto still_cold = setup.stage.edited(
      [](circuit::Circuit& circuit) { circuit.heatsinks[1].resistance_k_per_w = 0.0; });
  REQUIRE(std::holds_alternative<solve::ThermalTrouble>(solve::solve_stage(still_cold, when_warm)));

  const auto answer = warmup_of(setup);
  CHECK_FALSE(answer.warm.has_value());
  REQUIRE(answer.trouble.has_value());
  CHECK(answer.trouble->misses_rest);
  CHECK(setup.stage->at(answer.trouble->story.trouble.part).name == "Q2");
  // With the sensor's sink as quick as the other the rest is reached.
  std::string quick = slow_sensor;
  quick.replace(quick.find("1000J/K"), 7, "1J/K");
  CHECK(warmup_of(drawn(quick, when_warm)).warm.has_value());
}

TEST_CASE("Music heats the sinks of the output transistors", "[answers][identity]") {
  const auto setup = demo("drystone-40w.stage");
  const auto outcome = solve::solve_cold(setup.stage);
  const auto& cold = std::get<solve::OperatingPoint>(outcome);
  const auto shares = answers::soak_shares(setup.stage, cold, 20.0);
  REQUIRE(shares.has_value());
  CHECK_THAT((*shares)[0] + (*shares)[1], WithinRel(1.0, 1e-12));
  // The drivers on HS202 carry the outputs' base current: a gain of some tens less.
  CHECK((*shares)[0] > 0.95);
  CHECK((*shares)[1] > 0.0);
}

}  // namespace idlepoint::tests
