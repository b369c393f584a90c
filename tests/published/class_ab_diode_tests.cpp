// Oracle: worked examples of textbooks on class-AB stages biased by two diodes. Each is compared
// with the printed figure (the book's rounding, and its neglect of base currents, as tolerance) and
// with the exact solution of the same equations.
#include <cmath>

#include "published/solve_text.hpp"

namespace idlepoint::tests {
namespace {

// Where the signal source must hold the lower base for the output to stand at `output_v`.
struct Swing {
  double output_v;
  double lower_a;  // Collector current of the pnp there.
  double upper_a;  // Of the npn.
  double diode_a;
  double spread_v;
};

Solved swung(const Swing& swing) {
  const double base_v = swing.output_v - 0.025 * std::log(swing.lower_a / 1e-13);
  return solved(changed(published("class-ab-diodes"), fmt::format("V1 is {}V", base_v)),
                {.load_connected = true});
}

}  // namespace

// [SedraSmith2015], "Biasing the class AB circuit": IS = 1e-13 A, gain 50, diodes of a third of the
// area, 3 mA, VT = 25 mV. Printed: IQ 9 mA and 270 mW without base current; VBB 1.26, 1.21, 1.26 V
// at 0, +10, -10 V; diode current 2.83 and about 1 mA.
TEST_CASE("Diodes of a third of the area set three times their current in the outputs",
          "[solve][published]") {
  const Solved stage = solved(published("class-ab-diodes"));
  CHECK_THAT(stage("volts out gnd"), WithinAbs(0.0, 1e-6));
  CHECK_THAT(stage("amps D1"), WithinRel(2.830189e-3, exact));
  CHECK_THAT(stage("amps Q1"), WithinRel(8.490566e-3, exact));
  CHECK_THAT(stage("amps Q2"), WithinRel(8.490566e-3, exact));
  CHECK_THAT(stage("volts b_hi b_lo"), WithinRel(1.258240, exact));
  CHECK_THAT(stage("amps Q1"), WithinRel(9e-3, 0.06));
  CHECK_THAT(stage("watts Q1") + stage("watts Q2"), WithinRel(0.270, 0.06));
  CHECK_THAT(stage("volts b_hi b_lo"), WithinAbs(1.26, 5e-3));
  CHECK_THAT(stage("amps D1"), WithinAbs(2.83e-3, 0.005e-3));
}

TEST_CASE("A diode-biased stage keeps its spread while one half takes over the load",
          "[solve][published]") {
  const auto swing = GENERATE(Swing{10.0, 98.666e-6, 98.13788e-3, 1.037242e-3, 1.208051},
                              Swing{1.0, 4.596628e-3, 14.400549e-3, 0.0, 1.256107},
                              Swing{-10.0, 98.84981e-3, 0.810593e-3, 2.983788e-3, 1.260883});
  const Solved stage = swung(swing);
  CAPTURE(swing.output_v);
  CHECK_THAT(stage("volts out gnd"), WithinRel(swing.output_v, exact));
  CHECK_THAT(stage("amps LS1"), WithinRel(swing.output_v / 100.0, exact));
  CHECK_THAT(stage("amps Q1"), WithinRel(swing.upper_a, exact));
  CHECK_THAT(stage("amps Q2"), WithinRel(swing.lower_a, 2e-5));
  CHECK_THAT(stage("volts b_hi b_lo"), WithinRel(swing.spread_v, exact));
  if (swing.diode_a > 0.0) CHECK_THAT(stage("amps D1"), WithinRel(swing.diode_a, exact));
}

TEST_CASE("At ten volts out the diode-biased stage has the printed spread and base voltage",
          "[solve][published]") {
  const Solved up = swung({10.0, 98.666e-6, 98.13788e-3, 1.037242e-3, 1.208051});
  CHECK_THAT(up("volts b_hi gnd"), WithinRel(10.690306, 1e-6));
  CHECK_THAT(up("volts b_hi b_lo"), WithinAbs(1.21, 5e-3));
  CHECK_THAT(up("amps D1"), WithinRel(1e-3, 0.05));
  const Solved down = swung({-10.0, 98.84981e-3, 0.810593e-3, 2.983788e-3, 1.260883});
  CHECK_THAT(down("volts b_hi b_lo"), WithinAbs(1.26, 5e-3));
}

// [Neamen2001], example 8.9: IS 3e-14 and 1e-13 A, 20 mA, VT = 26 mV, base currents neglected.
// Printed: VBB 1.416 V, ICQ 66.7 mA.
TEST_CASE("Without base current a 5 W stage idles at the ratio of the junction areas",
          "[solve][published]") {
  auto circuit = published("class-ab-diodes-5w");
  for (const char* change : {"Q1 gain 1e12", "Q2 gain 1e12"}) circuit = changed(circuit, change);
  const Solved stage = solved(circuit);
  CHECK_THAT(stage("volts b_hi b_lo"), WithinRel(1.415729, 1e-6));
  CHECK_THAT(stage("amps Q1"), WithinRel(66.6667e-3, exact));
  CHECK_THAT(stage("volts b_hi b_lo"), WithinAbs(1.416, 1e-3));
  CHECK_THAT(stage("amps Q1"), WithinRel(66.7e-3, 0.01));
}

TEST_CASE("Base current takes a share of the string and lowers a 5 W stage's idle",
          "[solve][published]") {
  const Solved stage = solved(published("class-ab-diodes-5w"));
  CHECK_THAT(stage("volts out gnd"), WithinAbs(0.0, 1e-6));
  CHECK_THAT(stage("amps D1"), WithinRel(19.14894e-3, exact));
  CHECK_THAT(stage("amps Q1"), WithinRel(63.82979e-3, exact));
  CHECK_THAT(stage("volts b_hi b_lo"), WithinRel(1.413468, 1e-6));
}

// The same example at its peak of 8.94 V, 1.12 A. Printed: ID 5.29 mA, IBn 14.7 mA, VBB 1.35 V,
// VBEn 0.78 V, VEBp 0.57 V, ICp 0.28 mA; two figures are the tolerance of the last.
TEST_CASE("At its peak a 5 W stage has the printed base current and spread", "[solve][published]") {
  const Solved stage =
      solved(changed(published("class-ab-diodes-5w"), "V1 is 8.375V"), {.load_connected = true});
  CHECK_THAT(stage("volts out gnd"), WithinRel(8.94, 0.005));
  CHECK_THAT(-emitter_current_a(stage, "Q1"), WithinRel(1.12, 0.01));
  CHECK_THAT(base_current_a(stage, "Q1"), WithinRel(14.7e-3, 0.01));
  CHECK_THAT(stage("amps D1"), WithinRel(5.29e-3, 0.01));
  CHECK_THAT(stage("volts b_hi b_lo"), WithinAbs(1.35, 5e-3));
  CHECK_THAT(stage("volts b_hi out"), WithinAbs(0.78, 5e-3));
  CHECK_THAT(stage("volts out b_lo"), WithinAbs(0.57, 6e-3));
  CHECK_THAT(stage("amps Q2"), WithinRel(0.28e-3, 0.05));
}

// [Neamen2001], problem to figure 8.31: ICQ = 4 mA, IS 2e-15 A, diodes 4e-16 A, VT = 26 mV, base
// currents neglected. Inputs of the book; IBIAS = 0.8 mA and VBB = 1.472857 V follow from them.
TEST_CASE("Diodes of a fifth of the area need a fifth of the standing current",
          "[solve][published]") {
  const Solved stage = solved(fmt::format(
      R"(
ambient {kelvin}K
rail  vpos +10V resistance=0R
rail  vneg -10V resistance=0R
feed  I1 0.8mA from=vpos into=b_hi compliance=none
diode D1 anode=b_hi cathode=x type=fifth
diode D2 anode=x cathode=b_lo type=fifth
hold  V1 b_lo gnd -0.7364285V
npn   Q1 c=vpos b=b_hi e=out type=upper
pnp   Q2 c=vneg b=b_lo e=out type=lower
load  LS1 out gnd 1k
type diode fifth saturation_current=4e-16A measured_at={kelvin}K
type npn upper saturation_current=2e-15A gain=1e12 measured_at={kelvin}K
type pnp lower saturation_current=2e-15A gain=1e12 measured_at={kelvin}K
)",
      fmt::arg("kelvin", "301.71747116030207")));
  CHECK_THAT(stage("amps Q1"), WithinRel(4e-3, 1e-6));
  CHECK_THAT(stage("volts b_hi b_lo"), WithinRel(1.472857, 1e-6));
}

// [MalvinoBates2007], example 12-10: printed 2.38 mA. Its 5 W and 78 % are sums over a sine and
// stay out; the full swing's 1 A is the saturation current 10 V / 10 ohm.
TEST_CASE("Compensating diodes pass their current on to the output pair", "[solve][published]") {
  const Solved stage = solved(published("compensating-diodes"));
  const double string_a = (20.0 - 1.4) / 7800.0;
  CHECK_THAT(stage("amps D1"), WithinRel(string_a, exact));
  CHECK_THAT(stage("amps Q1"), WithinRel(stage("amps D1"), 1e-6));
  CHECK_THAT(stage("amps Q2"), WithinRel(stage("amps D1"), 1e-6));
  CHECK_THAT(stage("volts out gnd"), WithinRel(10.0, 1e-6));
  CHECK_THAT(stage("amps Q1"), WithinAbs(2.38e-3, 0.005e-3));
}

}  // namespace idlepoint::tests
