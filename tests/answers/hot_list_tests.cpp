// Oracle: Ohm's law on resistors of known watts, and the swing of a bootstrap worked by hand.
#include "answers/asked.hpp"
#include "answers/hot_list.hpp"

namespace idlepoint::tests {
namespace {

answers::HotList hot_of(const answers::Setup& setup) { return readings_of(setup).hot; }

// 20 V across each: 0.40 W, 0.33 W, 0.18 W.
const std::string resistors = R"(
rail vp 20V resistance=0R
resistor R1 vp gnd 1k power=0.5W
resistor R2 vp gnd 1k2 power=0.3W
resistor R3 vp gnd 2k2 power=0.5W
resistor R4 vp gnd 100R
)";

}  // namespace

TEST_CASE("A resistor above half of its rating is named, those at risk first",
          "[answers][analytic]") {
  const auto setup = drawn(resistors);
  const auto hot = hot_of(setup);
  REQUIRE(hot.parts.size() == 2);
  CHECK(setup.stage->at(hot.parts[0].part).name == "R2");
  CHECK_THAT(hot.parts[0].power_w, WithinRel(400.0 / 1200.0, 1e-9));
  CHECK(hot.parts[0].rating_w == 0.3);
  CHECK_FALSE(hot.parts[0].is_played_loud);
  CHECK(setup.stage->at(hot.parts[1].part).name == "R1");
}

// Two thirds at most: 0.33 W needs 0.5 W, 0.40 W needs 1 W.
TEST_CASE("A charred half-watt resistor deserves one watt", "[answers][analytic]") {
  const auto hot = hot_of(drawn(resistors));
  CHECK(hot.parts[0].suggested_w == 0.5);
  CHECK(hot.parts[1].suggested_w == 1.0);
}

TEST_CASE("A resistor at six tenths of its rating is named and left in", "[answers][analytic]") {
  const auto hot = hot_of(drawn("rail vp 30V resistance=0R\nresistor R1 vp gnd 1k5 power=1W\n"));
  REQUIRE(hot.parts.size() == 1);
  CHECK_FALSE(hot.parts[0].suggested_w.has_value());
}

// The solves move the string a little too. Half the rail's string at rest, 36 V peak added by the
// swing: (V0^2 + 36^2/2)/2k2, with V0 what the string leaves to R607.
TEST_CASE("The rail's end of a bootstrap takes three times its watts at rest when played loud",
          "[answers][analytic]") {
  const auto setup = demo("spinney-45w.stage", when_warm);
  const auto answer = readings_of(setup);
  const auto r607 = *circuit::find_part(*setup.stage, "R607");
  REQUIRE(answer.hot.parts.size() == 1);
  CHECK(answer.hot.parts[0].part == r607);
  CHECK(answer.hot.parts[0].is_played_loud);
  const double cold_w = answer.cold->state.part(r607).power_w;
  CHECK_THAT(answer.hot.parts[0].power_w, WithinRel(cold_w + 36.0 * 36.0 / 2.0 / 2200.0, 0.06));
}

TEST_CASE("A stage that burns at rest is not played", "[answers][analytic]") {
  const auto hot = hot_of(with_fault(demo("quarry-30w.stage"), "Q606 short c-e"));
  REQUIRE_FALSE(hot.parts.empty());
  for (const auto& part : hot.parts) CHECK_FALSE(part.is_played_loud);
  CHECK_FALSE(hot.full_output.has_value());
}

TEST_CASE("On half rails a stage is not played", "[answers][analytic]") {
  CHECK(hot_of(demo("spinney-45w.stage", {.rails = 0.5})).parts.empty());
}

TEST_CASE("A transistor is judged by what it may have as warm as it is", "[answers][analytic]") {
  // 19.3 V over 96k5, times 100: 20 mA at 20 V, 0.40 W of 0.5 W in air of 25 C, in a room of 75 C
  // beyond the 0.3 W left.
  const std::string stage = R"(
rail vp 20V resistance=0R
resistor R1 vp b 96k5
npn Q1 c=vp b=b e=gnd type=t
type npn t saturation_current=10fA gain=100 max_power=0.5W junction_to_ambient=250K/W
)";
  const auto cool = hot_of(drawn(stage));
  REQUIRE(cool.parts.size() == 1);
  CHECK_THAT(cool.parts[0].power_w, WithinRel(0.4, 0.02));
  CHECK_THAT(cool.parts[0].rating_w, WithinRel(0.5, 1e-9));
  const auto warm = hot_of(drawn(stage + "ambient 75C\n"));
  REQUIRE(warm.parts.size() == 1);
  CHECK_THAT(warm.parts[0].rating_w, WithinRel(0.3, 1e-9));
  CHECK(warm.parts[0].power_w > warm.parts[0].rating_w);
}

}  // namespace idlepoint::tests
