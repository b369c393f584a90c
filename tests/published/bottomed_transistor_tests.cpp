// Oracle: [SedraSmith2015] on transistors that are hard on: the book holds 0.7 V from base to
// emitter and 0.2 V from collector to emitter. A type has both at the book's currents when its
// saturation current and its inverse gain are solved from them; what is tested is the circuit
// around it.
#include <cmath>

#include "published/solve_text.hpp"

namespace idlepoint::tests {
namespace {

/// The type's data at which `base_a` and `collector_a` flow at 0.7 V and 0.2 V, gain 100:
/// with f and r the two diode terms, IC = f - r (1 + 1/Bi) and IB = f/B + r/Bi.
std::string bottomed_type(double base_a, double collector_a) {
  const double gain = 100.0;
  const double reverse_share = std::exp(-0.2 / room_thermal_v);
  const double forward_a = (base_a + collector_a) / (1.0 + 1.0 / gain - reverse_share);
  const double inverse_gain = forward_a * reverse_share / (base_a - forward_a / gain);
  return fmt::format("saturation_current={}A gain={} inverse_gain={}",
                     forward_a / std::exp(0.7 / room_thermal_v),
                     gain,
                     inverse_gain);
}

}  // namespace

// 5.5: 6 V on the base, 10 V through 4.7k, 3.3k in the emitter. Printed: 5.3 V, 1.6 mA, 5.5 V, 0.96
// mA, 0.64 mA, forced gain 1.5.
TEST_CASE("An npn driven too far bottoms with a forced gain of one and a half",
          "[solve][published]") {
  const double emitter_a = 5.3 / 3300.0;
  const double collector_a = (10.0 - 5.5) / 4700.0;
  const Solved stage = solved(fmt::format(
      R"(
hold V1 vcc gnd 10V
hold V2 base gnd 6V
npn Q1 c=col b=base e=em type=hard-on
resistor RC vcc col 4k7
resistor RE em gnd 3k3
type npn hard-on {}
)",
      bottomed_type(emitter_a - collector_a, collector_a)));
  CHECK_THAT(stage("volts em gnd"), WithinRel(5.3, 1e-6));
  CHECK_THAT(-emitter_current_a(stage, "Q1"), WithinAbs(1.606e-3, 0.0005e-3));
  CHECK_THAT(stage("volts col gnd"), WithinRel(5.5, 1e-6));
  CHECK_THAT(stage("amps Q1"), WithinAbs(0.957e-3, 0.0006e-3));
  CHECK_THAT(base_current_a(stage, "Q1"), WithinAbs(0.649e-3, 0.0006e-3));
  CHECK_THAT(stage("amps Q1") / base_current_a(stage, "Q1"), WithinAbs(1.5, 0.05));
}

// 5.9: a pnp, +5 V through 1k, base through 10k to ground, collector through 10k to -5 V.
// Printed: 3.13, 3.83 and 3.63 V, 1.17, 0.31 and 0.86 mA.
TEST_CASE("A pnp with a large collector resistor bottoms a fifth of a volt under its emitter",
          "[solve][published]") {
  // With VB the base: (5 - VB - 0.7)/1k = VB/10k + (VB + 0.5 + 5)/10k.
  const double base_v = (4.3 - 0.55) / 1.2;
  const double base_a = base_v / 10e3;
  const double collector_a = (base_v + 5.5) / 10e3;
  const Solved stage = solved(fmt::format(
      R"(
hold V1 vpos gnd 5V
hold V2 vneg gnd -5V
resistor RE vpos em 1k
pnp Q1 c=col b=base e=em type=hard-on
resistor RB base gnd 10k
resistor RC col vneg 10k
type pnp hard-on {}
)",
      bottomed_type(base_a, collector_a)));
  CHECK_THAT(stage("volts base gnd"), WithinAbs(3.13, 0.0055));
  CHECK_THAT(stage("volts em gnd"), WithinAbs(3.83, 0.0055));
  CHECK_THAT(stage("volts col gnd"), WithinAbs(3.63, 0.0055));
  CHECK_THAT(stage("volts base gnd"), WithinRel(base_v, 1e-6));
  CHECK_THAT(emitter_current_a(stage, "Q1"), WithinAbs(1.17e-3, 0.0055e-3));
  CHECK_THAT(-base_current_a(stage, "Q1"), WithinAbs(0.31e-3, 0.005e-3));
  CHECK_THAT(stage("amps Q1"), WithinAbs(0.86e-3, 0.005e-3));
}

}  // namespace idlepoint::tests
