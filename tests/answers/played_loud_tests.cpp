// Oracle: emitter followers held by ideal voltages, where Kirchhoff says who carries the current; a
// half sine's mean square by Boost.Math's quadrature; the swings of drawings read by eye.
#include <boost/math/quadrature/gauss_kronrod.hpp>
#include <cmath>
#include <numbers>

#include "answers/asked.hpp"
#include "answers/node_swings.hpp"
#include "answers/played_loud.hpp"

namespace idlepoint::tests {
namespace {

using answers::Half;
using answers::PlayedLoud;
using circuit::PartId;

PlayedLoud played(const answers::Setup& setup) {
  auto outcome = answers::play_loud(setup.stage, setup.conditions);
  if (const auto* why = std::get_if<std::string>(&outcome)) FAIL(*why);
  return std::get<PlayedLoud>(std::move(outcome));
}

double swing(const answers::Setup& setup, const PlayedLoud& loud, const std::string& node) {
  return loud.swings.at(circuit::find_node(*setup.stage, node)->index);
}

/// Bases held apart by two ideal voltages: both halves nearly off at rest. `more` are further
/// statements.
std::string follower(const std::string& more) {
  return R"(
rail vpos 24V resistance=0R
rail vneg -24V resistance=0R
hold V1 b_hi gnd 0.45V
hold V2 gnd b_lo 0.45V
npn Q1 c=vpos b=b_hi e=e_hi type=up
pnp Q2 c=vneg b=b_lo e=e_lo type=down
resistor R1 e_hi out 0R33
resistor R2 out e_lo 0R33
resistor R3 out gnd 1k
load LS1 out gnd 8R
type npn up saturation_current=10pA gain=50
type pnp down saturation_current=10pA gain=50
)" + more;
}

/// Mean of the square over a cycle of a current that goes from `rest_a` to `up_a` and to `down_a`.
double mean_square(double rest_a, double up_a, double down_a) {
  using boost::math::quadrature::gauss_kronrod;
  const auto half = [&](double top_a) {
    const auto square = [&](double t) {
      return std::pow(rest_a + (top_a - rest_a) * std::sin(t), 2.0);
    };
    return gauss_kronrod<double, 31>::integrate(square, 0.0, std::numbers::pi);
  };
  return (half(up_a) + half(down_a)) / (2.0 * std::numbers::pi);
}

}  // namespace

TEST_CASE("Each half of a follower carries the whole peak current in its own half cycle",
          "[answers][analytic]") {
  const auto setup = drawn(follower(""));
  const PlayedLoud loud = played(setup);
  CHECK_THAT(loud.full.peak_a, WithinRel(3.0, 1e-12));
  REQUIRE(loud.output_parts.size() == 2);
  CHECK(loud.output_parts[0].part == part_named(setup, "Q1"));
  CHECK(loud.output_parts[0].half == Half::upper);
  CHECK(loud.output_parts[1].part == part_named(setup, "Q2"));
  CHECK(loud.output_parts[1].half == Half::lower);
  CHECK(loud.output_parts[0].share == 1.0);
  // Emitter current 3 A less what R3 gives, 50/51 of it in the collector.
  const double out_v = loud.gives->voltage_v(*circuit::find_node(*setup.stage, "out"));
  CHECK_THAT(answers::amps_of(*setup.stage, part_named(setup, "Q1"), *loud.gives),
             WithinRel((3.0 + out_v / 1000.0) * 50.0 / 51.0, 1e-6));
}

TEST_CASE(
    "Parallel output parts share by their saturation currents where nothing else tells them apart",
    "[answers][analytic]") {
  const auto setup = drawn(follower(
      "npn Q3 c=vpos b=b_hi e=e_hi type=twice\ntype npn twice saturation_current=20pA gain=50\n"));
  const PlayedLoud loud = played(setup);
  REQUIRE(loud.output_parts.size() == 3);
  for (const auto& one : loud.output_parts) {
    if (one.part == part_named(setup, "Q1")) CHECK_THAT(one.share, WithinRel(1.0 / 3.0, 1e-6));
    if (one.part == part_named(setup, "Q3")) CHECK_THAT(one.share, WithinRel(2.0 / 3.0, 1e-6));
    if (one.part == part_named(setup, "Q2")) CHECK(one.share == 1.0);
  }
}

TEST_CASE("An emitter resistor played loud takes a quarter of its peak watts",
          "[answers][analytic]") {
  const auto setup = drawn(follower(""));
  const PlayedLoud loud = played(setup);
  const auto watts = answers::loud_watts(*setup.stage, loud, part_named(setup, "R1"));
  REQUIRE(watts.has_value());
  CHECK_THAT(*watts, WithinRel(3.0 * 3.0 * 0.33 / 4.0, 5e-3));
}

TEST_CASE("A resistor that carries current at rest takes the mean square of what it goes through",
          "[answers][analytic]") {
  // R4 hangs between the two emitters: at rest and at both tops its volts are known.
  const auto setup = drawn(follower("resistor R4 e_hi e_lo 10R\n"));
  const PlayedLoud loud = played(setup);
  const PartId id = part_named(setup, "R4");
  const double expected = 10.0 * mean_square(answers::amps_of(*setup.stage, id, loud.rest),
                                             answers::amps_of(*setup.stage, id, *loud.gives),
                                             answers::amps_of(*setup.stage, id, *loud.takes));
  CHECK_THAT(*answers::loud_watts(*setup.stage, loud, id), WithinRel(expected, 1e-3));
}

// V^2/(2 R) of a sine of 24 V peak on top of the volts at rest.
TEST_CASE("A resistor from the output to a rail takes the rail's watts and half the swing's",
          "[answers][analytic]") {
  const auto setup = drawn(follower("resistor R4 out vpos 2k2\nresistor R5 out vneg 2k2\n"));
  const PlayedLoud loud = played(setup);
  const double at_rest_w = 24.0 * 24.0 / 2200.0;
  CHECK_THAT(*answers::loud_watts(*setup.stage, loud, part_named(setup, "R4")),
             WithinRel(1.5 * at_rest_w, 1e-3));
  CHECK_THAT(*answers::loud_watts(*setup.stage, loud, part_named(setup, "R3")),
             WithinRel(24.0 * 24.0 / 2000.0, 1e-3));
}

TEST_CASE("Bases, emitters and the bootstrap follow the output, the first stage does not",
          "[answers][analytic]") {
  const auto setup = demo("spinney-45w.stage");
  const PlayedLoud loud = played(setup);
  for (const char* follows : {"hi", "lo", "b4", "bs", "d5", "d6", "e_hi", "e_lo", "spk"}) {
    CAPTURE(follows);
    CHECK_THAT(swing(setup, loud, follows), WithinAbs(1.0, 0.01));
  }
  for (const char* stands : {"gnd", "vpos", "psu_n", "c1", "e3", "fz"}) {
    CAPTURE(stands);
    CHECK_THAT(swing(setup, loud, stands), WithinAbs(0.0, 0.01));
  }
  // 33k from the output; 1k2 to ground, and through both bases 1k to an input that stands still.
  CHECK_THAT(swing(setup, loud, "fb"), WithinAbs(0.545 / 33.545, 1e-3));
}

TEST_CASE("The lower NPN of a quasi-complementary stage hangs from the output by its collector",
          "[answers][analytic]") {
  const auto setup = demo("quarry-30w.stage");
  const PlayedLoud loud = played(setup);
  REQUIRE(loud.output_parts.size() == 2);
  CHECK(loud.output_parts[1].part == part_named(setup, "Q607"));
  CHECK(loud.output_parts[1].half == Half::lower);
  CHECK_THAT(swing(setup, loud, "e_lo"), WithinAbs(0.0, 0.01));
  CHECK_THAT(std::abs(answers::swing_across(
                 loud.swings, setup.stage->at(part_named(setup, "Q607")), 0, 2)),
             WithinAbs(1.0, 0.01));
}

TEST_CASE("Four output parts of two pairs carry half of the current each", "[answers][identity]") {
  const auto setup = demo("cairnfell-120w.stage");
  const PlayedLoud loud = played(setup);
  REQUIRE(loud.output_parts.size() == 4);
  for (const auto& one : loud.output_parts) CHECK_THAT(one.share, WithinRel(0.5, 1e-6));
}

TEST_CASE("Where a transformer closes the loop the drawing tells the output parts",
          "[answers][analytic]") {
  const auto setup = demo("bramble-8w.stage");
  const PlayedLoud loud = played(setup);
  CHECK_FALSE(loud.gives.has_value());
  CHECK(loud.said.size() == 2);
  REQUIRE(loud.output_parts.size() == 2);
  CHECK(loud.output_parts[0].part == part_named(setup, "Q702"));
  CHECK(loud.output_parts[1].part == part_named(setup, "Q703"));
  CHECK_FALSE(answers::loud_watts(*setup.stage, loud, part_named(setup, "R711")).has_value());
}

TEST_CASE("A stage without a loudspeaker cannot be played", "[answers][analytic]") {
  const auto setup = drawn("rail vp 20V\nresistor R1 vp out 1k\nresistor R2 out gnd 1k\n");
  CHECK(std::holds_alternative<std::string>(answers::play_loud(setup.stage, {})));
}

}  // namespace idlepoint::tests
