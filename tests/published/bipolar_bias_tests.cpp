// Oracle: worked examples of textbooks on biasing one or two bipolar transistors. A book's constant
// base-emitter drop is had by a quick field: the type drops it at the book's own emitter current.
// Printed figures with their rounding, exact ones where the book's equations were solved in full.
#include "published/solve_text.hpp"

namespace idlepoint::tests {
namespace {

/// An npn stage with a divider to its base and an emitter resistor.
struct Divider {
  std::string supply, upper, lower, collector, emitter;
  std::string data;  ///< Of the type: base-emitter drop and gain.
};

std::string divider_stage(const Divider& values) {
  return fmt::format(
      R"(
hold V1 vcc gnd {}
resistor R1 vcc base {}
resistor R2 base gnd {}
npn Q1 c=col b=base e=em type=one
resistor RC vcc col {}
resistor RE em gnd {}
type npn one {}
)",
      values.supply,
      values.upper,
      values.lower,
      values.collector,
      values.emitter,
      values.data);
}

/// A base held at `base_v`, a collector and an emitter resistor.
std::string held_base(const std::string& base_v, const std::string& data) {
  return fmt::format(
      R"(
hold V1 vcc gnd 10V
hold V2 base gnd {}
npn Q1 c=col b=base e=em type=one
resistor RC vcc col 4k7
resistor RE em gnd 3k3
type npn one {}
)",
      base_v,
      data);
}

}  // namespace

// [MillmanHalkias1972], example 9.1: 22.5 V, 90k and 10k, 5.6k, 1k, gain 55, 0.65 V. Printed: 1.354
// mA, 24.6 uA, 13.5 V.
TEST_CASE("A divider of 90k and 10k sets 1.354 mA with a gain of 55", "[solve][published]") {
  const Solved stage = solved(
      divider_stage({"22.5V", "90k", "10k", "5k6", "1k", "vbe=0.65V vbe_at=1.3784615mA gain=55"}));
  CHECK_THAT(stage("amps Q1"), WithinAbs(1.354e-3, 0.0005e-3));
  CHECK_THAT(base_current_a(stage, "Q1"), WithinAbs(24.6e-6, 0.05e-6));
  CHECK_THAT(stage("volts col em"), WithinAbs(13.5, 0.05));
  CHECK_THAT(base_current_a(stage, "Q1"), WithinRel((2.25 - 0.65) / 65e3, exact));
}

// [SedraSmith2015], 5.4: 4 V on the base, 10 V, 4.7k, 3.3k, gain 100. Printed: 1.00 and 0.99
// mA, 5.3 V (5.35 V unrounded by the reworked figures), 9.9 uA.
TEST_CASE("Four volts on the base put a milliampere into 3.3 kilohms", "[solve][published]") {
  const Solved stage = solved(held_base("4V", "vbe=0.7V vbe_at=1mA gain=100"));
  CHECK_THAT(-emitter_current_a(stage, "Q1"), WithinRel(1.00e-3, exact));
  CHECK_THAT(stage("amps Q1"), WithinAbs(0.99e-3, 0.005e-3));
  CHECK_THAT(stage("volts col gnd"), WithinAbs(5.35, 0.005));
  CHECK_THAT(base_current_a(stage, "Q1"), WithinRel(9.9e-6, 0.002));
}

// [SedraSmith2015], 5.6: a pnp with its base at ground, +10 V through 2k, -10 V through 1k, gain
// 100. Printed: 4.65 mA, 4.60 mA, -5.4 V.
TEST_CASE("A pnp between two supplies carries 4.65 mA", "[solve][published]") {
  const Solved stage = solved(R"(
hold V1 vpos gnd 10V
hold V2 vneg gnd -10V
resistor RE vpos em 2k
pnp Q1 c=col b=gnd e=em type=one
resistor RC col vneg 1k
type pnp one vbe=0.7V vbe_at=4.65mA gain=100
)");
  CHECK_THAT(emitter_current_a(stage, "Q1"), WithinRel(4.65e-3, exact));
  CHECK_THAT(stage("amps Q1"), WithinAbs(4.60e-3, 0.005e-3));
  CHECK_THAT(stage("volts col gnd"), WithinAbs(-5.4, 0.005));
}

// [SedraSmith2015], 5.8: 5 V through 100k into the base, 2k to 10 V, gain 100. Printed: 43 uA, 4.3
// mA, 1.4 V.
TEST_CASE("A base fed by a resistor passes a hundred times its current", "[solve][published]") {
  const Solved stage = solved(R"(
hold V1 vcc gnd 10V
hold V2 in gnd 5V
resistor RB in base 100k
npn Q1 c=col b=base e=gnd type=one
resistor RC vcc col 2k
type npn one vbe=0.7V vbe_at=4.343mA gain=100
)");
  CHECK_THAT(base_current_a(stage, "Q1"), WithinRel(43e-6, exact));
  CHECK_THAT(stage("amps Q1"), WithinRel(4.3e-3, exact));
  CHECK_THAT(stage("volts col gnd"), WithinRel(1.4, 5 * exact));
}

// [SedraSmith2015], 5.10: 15 V, 100k and 50k, 5k, 3k, gain 100. Exact figures of the book's
// equations.
TEST_CASE("A divider of 100k and 50k loses an eleventh of a volt to the base",
          "[solve][published]") {
  const Solved stage = solved(
      divider_stage({"15V", "100k", "50k", "5k", "3k", "vbe=0.7V vbe_at=1.29128mA gain=100"}));
  CHECK_THAT(-emitter_current_a(stage, "Q1"), WithinRel(1.29128e-3, exact));
  CHECK_THAT(base_current_a(stage, "Q1"), WithinRel(12.785e-6, 4 * exact));
  CHECK_THAT(stage("amps Q1"), WithinRel(1.27849e-3, exact));
  CHECK_THAT(stage("volts base gnd"), WithinRel(4.5738, exact));
  CHECK_THAT(stage("volts col gnd"), WithinRel(8.6075, exact));
}

// [Neamen2001], example 3.14: 10 V, 56k and 12.2k, 2k, 0.4k, gain 100, 0.7 V.
TEST_CASE("A divider of 56k and 12.2k leaves 4.8 volts across its transistor",
          "[solve][published]") {
  const Solved stage = solved(
      divider_stage({"10V", "56k", "12k2", "2k", "400R", "vbe=0.7V vbe_at=2.18127mA gain=100"}));
  CHECK_THAT(base_current_a(stage, "Q1"), WithinRel(21.5968e-6, exact));
  CHECK_THAT(stage("amps Q1"), WithinRel(2.15968e-3, exact));
  CHECK_THAT(-emitter_current_a(stage, "Q1"), WithinRel(2.18127e-3, exact));
  CHECK_THAT(stage("volts col em"), WithinRel(4.80814, exact));
}

// [Neamen2001], example 3.9: +12 V, -5 V, base through 10k to ground, 5k in the emitter, the
// collector and the load, gain 100. Printed: 8.35 uA, 0.835 mA, 3.91 V out, 4.70 V across the
// transistor.
TEST_CASE("A load on the collector shares its resistor's current", "[solve][published]") {
  const Solved stage = solved(R"(
hold V1 vpos gnd 12V
hold V2 vneg gnd -5V
resistor RB base gnd 10k
npn Q1 c=col b=base e=em type=one
resistor RC vpos col 5k
resistor RL col gnd 5k
resistor RE em vneg 5k
type npn one vbe=0.7V vbe_at=0.8433mA gain=100
)");
  CHECK_THAT(base_current_a(stage, "Q1"), WithinAbs(8.35e-6, 0.005e-6));
  CHECK_THAT(stage("amps Q1"), WithinAbs(0.835e-3, 0.0005e-3));
  CHECK_THAT(stage("volts col gnd"), WithinAbs(3.91, 0.005));
  CHECK_THAT(stage("volts col em"), WithinAbs(4.70, 0.005));
}

// [Neamen2001], example 3.7: +-5 V, 1k, 0.5k, base at ground, gain 100, 0.65 V (the resistors are
// from memory; the printed figures follow from them). Printed: 4.35 and 4.31 mA, 3.50 V.
TEST_CASE("An emitter resistor to the negative supply sets 4.35 mA", "[solve][published]") {
  const Solved stage = solved(R"(
hold V1 vpos gnd 5V
hold V2 vneg gnd -5V
npn Q1 c=col b=gnd e=em type=one
resistor RC vpos col 500R
resistor RE em vneg 1k
type npn one vbe=0.65V vbe_at=4.35mA gain=100
)");
  CHECK_THAT(-emitter_current_a(stage, "Q1"), WithinRel(4.35e-3, exact));
  CHECK_THAT(stage("amps Q1"), WithinAbs(4.31e-3, 0.005e-3));
  CHECK_THAT(stage("volts col em"), WithinAbs(3.50, 0.005));
}

// [Neamen2001], example 3.17. Printed: 1.12 mA, -0.48 V, 0.22 V, 2.39 mA, 2.36 mA, -1.45 V.
TEST_CASE("Two direct-coupled stages rest where their book says", "[solve][published]") {
  const Solved stage = solved(published("two-stage-npn-pnp"));
  CHECK_THAT(stage("amps Q1"), WithinAbs(1.12e-3, 0.005e-3));
  CHECK_THAT(stage("volts c1 gnd"), WithinAbs(-0.48, 0.005));
  CHECK_THAT(stage("volts e2 gnd"), WithinAbs(0.22, 0.005));
  CHECK_THAT(emitter_current_a(stage, "Q2"), WithinAbs(2.39e-3, 0.005e-3));
  CHECK_THAT(stage("amps Q2"), WithinAbs(2.36e-3, 0.01e-3));
  CHECK_THAT(stage("volts c2 gnd"), WithinAbs(-1.45, 0.015));
}

// [Boylestad2013], example 4.1: 12 V, 240k, 2.2k, gain 50. Printed: 47.08 uA, 2.35 mA, 6.83 V,
// -6.13 V.
TEST_CASE("A fixed base resistor of 240k sets 47 microamperes", "[solve][published]") {
  const Solved stage = solved(R"(
hold V1 vcc gnd 12V
resistor RB vcc base 240k
npn Q1 c=col b=base e=gnd type=one
resistor RC vcc col 2k2
type npn one vbe=0.7V vbe_at=2.4012mA gain=50
)");
  CHECK_THAT(base_current_a(stage, "Q1"), WithinAbs(47.08e-6, 0.005e-6));
  CHECK_THAT(stage("amps Q1"), WithinAbs(2.35e-3, 0.005e-3));
  CHECK_THAT(stage("volts col gnd"), WithinAbs(6.82, 0.005));
  CHECK_THAT(stage("volts base col"), WithinAbs(-6.12, 0.005));
}

}  // namespace idlepoint::tests
