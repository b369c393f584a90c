// Oracle: a class-B pair on ideal supplies, every figure worked by hand from its rails, load and
// ratings; [SedraSmith2015] example 14.1 for the dissipation.
#include <cmath>
#include <numbers>

#include "answers/asked.hpp"
#include "answers/demands.hpp"
#include "solve/solve_stage.hpp"

namespace idlepoint::tests {
namespace {

using answers::Rating;
using answers::RatingCheck;
using circuit::PartId;

/// 23 V each way into 8 ohms, mains up to 10 % high, bases held so that next to nothing flows at
/// rest. `ratings` are those of the upper transistor.
std::string rated_pair(const std::string& ratings, const std::string& more = "") {
  return R"(
rail vpos 23V resistance=0R tolerance=10%
rail vneg -23V resistance=0R tolerance=10%
hold V1 b_hi gnd 0.4V
hold V2 gnd b_lo 0.4V
npn Q1 c=vpos b=b_hi e=out type=up on=HS1 washer=1K/W
pnp Q2 c=vneg b=b_lo e=out type=down on=HS1
resistor R1 out gnd 1k
load LS1 out gnd 8R
heatsink HS1 resistance=2K/W
type pnp down saturation_current=10pA gain=50
type npn up saturation_current=10pA gain=50 )" +
         ratings + "\n" + more;
}

std::vector<RatingCheck> checks_of(const answers::Setup& setup, const std::string& name) {
  const auto outcome = solve::solve_stage(setup.stage, setup.conditions);
  const auto* state = std::get_if<solve::OperatingPoint>(&outcome);
  REQUIRE(state != nullptr);
  return answers::check_ratings(
      setup.stage, *state, setup.conditions, {*circuit::find_part(*setup.stage, name)});
}

RatingCheck one(const std::vector<RatingCheck>& checks, Rating rating) {
  for (const auto& check : checks) {
    if (check.rating == rating) return check;
  }
  FAIL("no such check: " << answers::word(rating));
  return {};
}

bool has(const std::vector<RatingCheck>& checks, Rating rating) {
  return std::any_of(
      checks.begin(), checks.end(), [&](const auto& check) { return check.rating == rating; });
}

}  // namespace

TEST_CASE("An output transistor must stand both rails with the mains high", "[answers][analytic]") {
  const auto checks = checks_of(drawn(rated_pair("max_collector_emitter_voltage=60V")), "Q1");
  const auto voltage = one(checks, Rating::voltage);
  CHECK_THAT(*voltage.demand, WithinRel(46.0 * 1.1, 1e-9));
  CHECK_THAT(*voltage.limit, WithinRel(60.0, 1e-12));
  CHECK_THAT(*voltage.margin, WithinRel(1.0 - 50.6 / 60.0, 1e-9));
  CHECK(voltage.ok == true);
  CHECK(
      one(checks_of(drawn(rated_pair("max_collector_emitter_voltage=50V")), "Q1"), Rating::voltage)
          .ok == false);
}

TEST_CASE("The peak current of a pair is the rail over the load", "[answers][analytic]") {
  const auto checks = checks_of(drawn(rated_pair("max_collector_current=4A")), "Q1");
  // 50/51 of the emitter's.
  CHECK_THAT(*one(checks, Rating::current).demand, WithinRel(23.0 / 8.0 * 50.0 / 51.0, 1e-3));
  CHECK(one(checks, Rating::current).ok == true);
}

// [SedraSmith2015], example 14.1: 6.70 W at worst; at 60 degrees 0.193 of 23^2/8.
TEST_CASE("The dissipation of a pair played loud is judged as warm as its heat sink is",
          "[answers][published]") {
  const auto checks =
      checks_of(drawn(rated_pair("max_power=40W junction_to_case=3K/W"), when_warm), "Q1");
  CHECK_THAT(*one(checks, Rating::resistive_power).demand, WithinAbs(6.70, 0.005));
  CHECK_THAT(*one(checks, Rating::reactive_power).demand,
             WithinRel(23.0 * 23.0 / 8.0 * (1.0 / std::numbers::pi - 0.125), 1e-9));
  // Next to nothing flows at rest, so the sink is at 25 C: 125 K over 3 + 1 K/W.
  CHECK_THAT(*one(checks, Rating::resistive_power).limit, WithinRel(125.0 / 4.0, 1e-3));
}

TEST_CASE("Two output transistors in parallel take half of the watts each", "[answers][analytic]") {
  const auto setup = drawn(rated_pair("", "npn Q3 c=vpos b=b_hi e=out type=up on=HS1\n"));
  CHECK_THAT(*one(checks_of(setup, "Q3"), Rating::resistive_power).demand, WithinAbs(3.35, 0.003));
}

TEST_CASE("What a type does not say is not judged", "[answers][analytic]") {
  for (const auto& check : checks_of(drawn(rated_pair("")), "Q1")) {
    if (check.rating == Rating::junction_temperature) continue;  // 150 C where nothing is said
    CAPTURE(answers::word(check.rating));
    CHECK_FALSE(check.limit.has_value());
    CHECK_FALSE(check.ok.has_value());
    CHECK(check.demand.has_value());
  }
}

// 100 W at every voltage: peak watts at half the supply, 25.3 V (mains high) and 23 V peak:
// s = 25.3/46, V I = 25.3^2/(4 * 8) = 20.0 W, derated to (125/4)/(125/3) = 3/4 by the washer.
TEST_CASE("The safe area is judged on the load line, derated as the power is",
          "[answers][analytic]") {
  const auto checks = checks_of(
      drawn(rated_pair("max_power=41.6666667W junction_to_case=3K/W safe_area=0.5V:200A,100V:1A")),
      "Q1");
  const auto safe = one(checks, Rating::safe_area_resistive);
  CHECK_THAT(*safe.margin, WithinAbs(1.0 - 25.3 * 25.3 / 32.0 / 75.0, 1e-4));
  CHECK_THAT(*safe.at_v, WithinAbs(25.3 / 2.0, 0.1));
  CHECK_THAT(*safe.demand, WithinAbs(25.3 / 16.0, 0.02));
  CHECK(*one(checks, Rating::safe_area_reactive).margin < *safe.margin);
}

TEST_CASE("A transistor that does not see the swing is judged at rest alone",
          "[answers][analytic]") {
  const auto setup = demo("spinney-45w.stage");
  const auto spreader = checks_of(setup, "Q604");
  CHECK_FALSE(has(spreader, Rating::resistive_power));
  CHECK(*one(spreader, Rating::voltage).demand < 3.0);
  // The voltage amplifier stands between the moving point and a rail.
  CHECK_THAT(*one(checks_of(setup, "Q603"), Rating::voltage).demand, WithinRel(72.0 * 1.06, 1e-9));
  // The input pair stays where it is: 36 V and a little.
  CHECK_THAT(*one(checks_of(setup, "Q601"), Rating::voltage).demand, WithinRel(38.0, 0.05));
}

// Kirchhoff: what an output transistor does not amplify its driver must give.
TEST_CASE("A driver must give the peak base current of its output transistor",
          "[answers][analytic]") {
  const auto setup = drawn(rated_pair(""));
  const auto played = answers::play_loud(setup.stage, {});
  const PartId upper = *circuit::find_part(*setup.stage, "Q1");
  const auto drives =
      answers::peak_drives(*setup.stage, std::get<answers::PlayedLoud>(played), {upper});
  REQUIRE(drives.size() == 1);
  CHECK_THAT(drives[0].base_a, WithinRel(23.0 / 8.0 / 51.0, 1e-3));
}

TEST_CASE("Without a loudspeaker an output transistor must stand both rails all the same",
          "[answers][analytic]") {
  auto text = rated_pair("max_collector_emitter_voltage=60V", "signal output=out\n");
  text.erase(text.find("load LS1"), std::string("load LS1 out gnd 8R\n").size());
  CHECK_THAT(*one(checks_of(drawn(text), "Q1"), Rating::voltage).demand, WithinRel(50.6, 1e-9));
}

// 40 W at every voltage, 30 W with the washer's three quarters.
TEST_CASE("A safe area that is not kept at 60 degrees tells up to where it is",
          "[answers][analytic]") {
  const auto checks = checks_of(
      drawn(rated_pair("max_power=41.6666667W junction_to_case=3K/W safe_area=0.5V:80A,100V:0.4A")),
      "Q1");
  const auto reactive = one(checks, Rating::safe_area_reactive);
  CHECK(one(checks, Rating::safe_area_resistive).ok == true);
  CHECK_FALSE(one(checks, Rating::safe_area_resistive).kept_to_rad.has_value());
  CHECK(reactive.ok == false);
  REQUIRE(reactive.kept_to_rad.has_value());
  double most_w = 0.0;
  for (double t = 0.0; t < std::numbers::pi; t += 1e-3) {
    const double volts = 25.3 - 23.0 * std::sin(t + *reactive.kept_to_rad);
    most_w = std::max(most_w, 23.0 / 8.0 * std::sin(t) * volts);
  }
  CHECK_THAT(most_w, WithinRel(0.75 * 40.0, 2e-3));
}

TEST_CASE("A stage that cannot be played is judged at rest", "[answers][analytic]") {
  const auto setup = drawn(R"(
rail vp 20V
resistor R1 vp c 1k
resistor R2 vp b 1M
npn Q1 c=c b=b e=gnd type=t
type npn t saturation_current=10fA gain=100 max_power=0.3W max_collector_current=0.1A
)");
  const auto checks = checks_of(setup, "Q1");
  CHECK(one(checks, Rating::idle_power).ok == true);
  CHECK_FALSE(one(checks, Rating::current).ok.has_value());
  CHECK_FALSE(has(checks, Rating::safe_area_resistive));
}

}  // namespace idlepoint::tests
