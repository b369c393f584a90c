// Oracle: textbook examples of thermal resistance and derating, each named.
#include "answers/asked.hpp"
#include "answers/derating.hpp"
#include "values/constants.hpp"

namespace idlepoint::tests {
namespace {

using answers::allowed_w;
using answers::power_share;
using answers::Surroundings;
using circuit::Ratings;
using values::kelvin_from_celsius;

Ratings junction_to(double max_c, std::optional<double> case_k_per_w, std::optional<double> air) {
  Ratings ratings;
  ratings.max_junction_temperature_k = kelvin_from_celsius(max_c);
  ratings.junction_to_case_k_per_w = case_k_per_w;
  ratings.junction_to_ambient_k_per_w = air;
  return ratings;
}

Surroundings air(double celsius) { return {kelvin_from_celsius(celsius), false, 0.0}; }
Surroundings sink(double celsius, double washer_k_per_w = 0.0) {
  return {kelvin_from_celsius(celsius), true, washer_k_per_w};
}

}  // namespace

// [SedraSmith2015], example 14.4: 2 W in air of 25 C, 150 C at most: 62.5 K/W, 1.6 W at 50 C.
TEST_CASE("A transistor of 2 W in air of 25 C may have 1.6 W in air of 50 C",
          "[answers][published]") {
  Ratings ratings = junction_to(150.0, {}, {});
  ratings.max_power_w = 2.0;
  CHECK_THAT(*allowed_w(ratings, air(25.0)), WithinRel(2.0, 1e-12));
  CHECK_THAT(*allowed_w(ratings, air(50.0)), WithinRel(1.6, 1e-12));
  CHECK_THAT(*allowed_w(junction_to(150.0, {}, 62.5), air(50.0)), WithinRel(1.6, 1e-12));
  // 87.5 C at 1 W in 25 C: a junction of at most 87.5 C allows that watt.
  CHECK_THAT(*allowed_w(junction_to(87.5, {}, 62.5), air(25.0)), WithinRel(1.0, 1e-12));
}

// [SedraSmith2015], example 14.5: 3.12 K/W to the case, 0.5 to the sink, 4 to air of 50 C: 13.1 W;
// an infinite sink 32 W. The sink and its air stand in for one washer on a sink that stays cool.
TEST_CASE("On a heat sink of 4 K/W in air of 50 C a 3.12 K/W transistor may have 13.1 W",
          "[answers][published]") {
  const Ratings ratings = junction_to(150.0, 3.12, {});
  CHECK_THAT(*allowed_w(ratings, sink(50.0, 0.5 + 4.0)), WithinAbs(13.12, 0.005));
  CHECK_THAT(*allowed_w(ratings, sink(50.0)), WithinAbs(32.05, 0.005));
}

// [Neamen2001], example 8.1: 1.75 K/W to the case, 50 on in air of 30 C, or 1 and 5 through a sink.
TEST_CASE("A heat sink makes 15.5 W of 2.3 W in air of 30 C", "[answers][published]") {
  CHECK_THAT(*allowed_w(junction_to(150.0, {}, 1.75 + 50.0), air(30.0)), WithinAbs(2.32, 0.005));
  CHECK_THAT(*allowed_w(junction_to(150.0, 1.75, {}), sink(30.0, 1.0 + 5.0)),
             WithinAbs(15.48, 0.005));
}

// [Neamen2001], example 8.3: 20 W at a case of 25 C, 175 C at most: 7.5 K/W; with 6 K/W more from
// case to air of 25 C, 11.1 W.
TEST_CASE("A transistor of 20 W at its case may have 11.1 W with 6 K/W behind it",
          "[answers][published]") {
  Ratings ratings = junction_to(175.0, {}, {});
  ratings.max_power_w = 20.0;
  CHECK_THAT(*allowed_w(ratings, sink(25.0, 6.0)), WithinAbs(11.11, 0.005));
}

// From the definition of the derating line.
TEST_CASE("Below 25 C the sheet's watts stay, at the highest junction temperature there are none",
          "[answers][analytic]") {
  Ratings ratings = junction_to(200.0, 1.5, {});
  ratings.max_power_w = 115.0;
  CHECK(*allowed_w(ratings, sink(0.0)) == 115.0);
  CHECK(*allowed_w(ratings, sink(210.0)) == 0.0);
  CHECK_THAT(power_share(ratings, sink(110.0)), WithinRel(60.0 / 115.0, 1e-12));
  CHECK(power_share(ratings, sink(0.0)) == 1.0);
}

TEST_CASE("A type without watts and thermal resistance has no limit of power",
          "[answers][analytic]") {
  CHECK_FALSE(allowed_w(junction_to(150.0, {}, {}), sink(60.0)).has_value());
}

// By docs/models.md max_power holds at a case of 25 C where junction_to_case is given.
TEST_CASE("The watts of a cooled case say nothing of a part in free air", "[answers][analytic]") {
  Ratings ratings = junction_to(150.0, 6.25, {});
  ratings.max_power_w = 20.0;
  CHECK_THAT(*allowed_w(ratings, sink(25.0)), WithinRel(20.0, 1e-12));
  CHECK_FALSE(allowed_w(ratings, air(25.0)).has_value());
}

// T = room + coupling (sink - room) by docs/models.md.
TEST_CASE("A part that feels half of its heat sink's rise is derated by half of it",
          "[answers][analytic]") {
  const auto setup = drawn(R"(
rail vp 20V resistance=0R
resistor R1 vp c1 1R
npn Q1 c=c1 b=b1 e=gnd type=t on=HS1 coupling=50% washer=0.5K/W
resistor R2 vp b1 22k
heatsink HS1 resistance=3K/W
type npn t saturation_current=1pA gain=80 max_power=60W junction_to_case=2K/W
)",
                           when_warm);
  const auto answer = readings_of(setup);
  const circuit::HeatsinkId only{0};
  const double rise_k = answer.state.heatsink(only).temperature_k - 298.15;
  REQUIRE(rise_k > 1.0);
  CHECK_THAT(
      *answers::allowed_w(*setup.stage, *circuit::find_part(*setup.stage, "Q1"), answer.state),
      WithinRel((125.0 - 0.5 * rise_k) / 2.5, 1e-9));
}

}  // namespace idlepoint::tests
