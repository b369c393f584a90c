// Oracle: worked examples of [MalvinoBates2007] on followers, Darlington pairs and plain
// regulators, the book's 0.7 V had at the book's own current. Where the book neglects a base
// current that flows here, the tolerance is the share of that current.
#include <cmath>

#include "published/solve_text.hpp"

namespace idlepoint::tests {

// Example 12-6: 12 V, 50 and 100 ohm, 16 ohm in the emitter. Printed: 456 mA, 4.7 V.
TEST_CASE("A class-A follower of sixteen ohms rests at 456 mA", "[solve][published]") {
  const Solved stage = solved(R"(
hold V1 vcc gnd 12V
resistor R1 vcc base 50R
resistor R2 base gnd 100R
npn Q1 c=vcc b=base e=out type=power
resistor RE out gnd 16R
type npn power vbe=0.7V vbe_at=456mA gain=1e12
)");
  CHECK_THAT(stage("amps Q1"), WithinAbs(456e-3, 0.5e-3));
  CHECK_THAT(stage("volts vcc out"), WithinAbs(4.7, 0.005));
}

// Example 11-8: 15 V, 10k and 20k, 60 ohm, two transistors of gain 100. Printed: 8.6 V, 143
// mA, 1.43 mA, 14.3 uA. The book neglects what the base takes from the divider: 2 %.
TEST_CASE("A Darlington follower asks its divider for microamperes", "[solve][published]") {
  const Solved stage = solved(R"(
hold V1 vcc gnd 15V
resistor R1 vcc base 10k
resistor R2 base gnd 20k
npn Q1 c=vcc b=base e=joint type=first
npn Q2 c=vcc b=joint e=out type=second
resistor RE out gnd 60R
type npn first vbe=0.7V vbe_at=1.433mA gain=100
type npn second vbe=0.7V vbe_at=143.3mA gain=100
)");
  CHECK_THAT(stage("volts out gnd"), WithinRel(8.6, 0.02));
  CHECK_THAT(-emitter_current_a(stage, "Q2"), WithinRel(143.3e-3, 0.02));
  CHECK_THAT(base_current_a(stage, "Q2"), WithinRel(1.433e-3, 0.025));
  CHECK_THAT(base_current_a(stage, "Q1"), WithinRel(14.33e-6, 0.035));
}

// [SedraSmith2015], problem 12.36: VBE of a Darlington pair is 2 VT ln(IC/IS) - VT ln(gain of the
// output), both saturation currents alike; the error of the book's form is kT/q over the gain.
TEST_CASE("A Darlington's base-emitter drop is two drops less kT/q times the log of the gain",
          "[solve][published]") {
  const Solved stage = solved(R"(
hold V1 vcc gnd 15V
feed I1 100mA from=out into=gnd compliance=none
npn Q1 c=vcc b=gnd e=joint type=like
npn Q2 c=vcc b=joint e=out type=like
type npn like saturation_current=0.1pA gain=100
)");
  const double drop_v =
      2.0 * room_thermal_v * std::log(stage("amps Q2") / 1e-13) - room_thermal_v * std::log(100.0);
  CHECK_THAT(stage("volts gnd out"), WithinAbs(drop_v, room_thermal_v / 100.0));
}

// Example 11-9. Printed: 9.3 V, 8.51 mA in the zener with a base current of 620 mA / 100 (101 here:
// 1 %).
TEST_CASE("A zener follower gives the zener's voltage less one drop", "[solve][published]") {
  const Solved stage = solved(published("zener-follower"));
  CHECK_THAT(stage("volts out gnd"), WithinRel(9.3, 1e-4));
  CHECK_THAT(stage("amps D1"), WithinRel(-8.51e-3, 0.01));
}

// Example 11-10. Printed: 20.7 V.
TEST_CASE("A two-transistor regulator multiplies zener and drop by its divider",
          "[solve][published]") {
  const auto circuit = published("two-transistor-regulator");
  const Solved stage = solved(circuit);
  CHECK_THAT(stage("volts out gnd"), WithinRel(20.7, 1e-3));
  const Solved low_mains = solved(circuit, {.rails = 0.9});
  CHECK(low_mains("volts out gnd") < stage("volts out gnd"));
  CHECK_THAT(low_mains("volts out gnd"), WithinRel(20.7, 1e-2));
}

}  // namespace idlepoint::tests
