// Oracle: textbook problems on the class-AB pair whose bases are held apart by an ideal voltage:
// the books' inputs, the answer computed from the stated equations. Gains and output resistances
// are central differences of two solves.
#include <cmath>

#include "published/solve_text.hpp"

namespace idlepoint::tests {
namespace {

/// A complementary pair without base current, its bases `spread_v` apart about the point that `VI`
/// holds; `data` gives the saturation current, directly or by a quick field.
std::string held_pair(double spread_v, const std::string& data, double input_v = 0.0) {
  return fmt::format(
      R"(
ambient {kelvin}K
rail vpos +20V resistance=0R
rail vneg -20V resistance=0R
hold VI in gnd {input}V
hold V1 b_hi in {half}V
hold V2 in b_lo {half}V
npn  Q1 c=vpos b=b_hi e=out type=upper
pnp  Q2 c=vneg b=b_lo e=out type=lower
load LS1 out gnd 100R
feed I1 0A from=gnd into=out compliance=none
type npn upper {data} gain=1e12 measured_at={kelvin}K
type pnp lower {data} gain=1e12 measured_at={kelvin}K
)",
      fmt::arg("kelvin", kelvin_at_25_mv),
      fmt::arg("input", input_v),
      fmt::arg("half", spread_v / 2.0),
      fmt::arg("data", data));
}

constexpr solve::Conditions loaded{.load_connected = true};

/// d(output)/d(input) about `input_v`, the load connected.
double incremental_gain(const std::string& stage, double input_v) {
  const double step_v = 1e-4;
  const auto output_v = [&](double at_v) {
    return solved(changed(drawn(stage), fmt::format("VI is {}V", at_v)), loaded)("volts out gnd");
  };
  return (output_v(input_v + step_v) - output_v(input_v - step_v)) / (2.0 * step_v);
}

}  // namespace

// [SedraSmith2015], problem 12.17: IS = 1e-14 A, IQ = 1 mA, RL = 100 ohm, VT = 25 mV.
TEST_CASE("A class-AB pair at rest follows its input with a gain of eight ninths",
          "[solve][published]") {
  const std::string stage = held_pair(1.266422, "saturation_current=1e-14A");
  const Solved rest = solved(drawn(stage), loaded);
  CHECK_THAT(rest("amps Q1"), WithinRel(1e-3, 2e-5));
  CHECK_THAT(rest("volts out gnd"), WithinAbs(0.0, 1e-9));
  CHECK_THAT(incremental_gain(stage, 0.0), WithinRel(0.888889, 1e-5));
}

TEST_CASE("The output resistance of a class-AB pair is half of kT/q over the standing current",
          "[solve][published]") {
  const std::string stage = held_pair(1.266422, "saturation_current=1e-14A");
  CHECK_THAT(slope(drawn(stage), {"I1", 0.0, 1e-6, "A"}, "volts out gnd"), WithinRel(12.5, 2e-5));
}

TEST_CASE("At ten volts one half of a class-AB pair carries the load and the product stays",
          "[solve][published]") {
  const std::string stage = held_pair(1.266422, "saturation_current=1e-14A", 10.115132);
  const Solved peak = solved(drawn(stage), loaded);
  CHECK_THAT(peak("volts out gnd"), WithinRel(10.0, 1e-6));
  CHECK_THAT(peak("amps Q1"), WithinRel(100.010e-3, 1e-5));
  CHECK_THAT(peak("amps Q2"), WithinRel(9.99900e-6, 3e-5));
  CHECK_THAT(peak("amps Q1") * peak("amps Q2"), WithinRel(1e-6, 3e-5));
  CHECK_THAT(incremental_gain(stage, 10.115132), WithinRel(0.997507, 1e-5));
}

// [SedraSmith2015], problem 12.18: gain at least 0.97 into 100 ohm, VBE = 0.7 V at 100 mA.
TEST_CASE("Four milliamperes of standing current give a gain of 0.97 into a hundred ohms",
          "[solve][published]") {
  const std::string stage = held_pair(1.239574, "vbe=0.7V vbe_at=100mA");
  CHECK_THAT(solved(stage)("amps Q1"), WithinRel(4.0417e-3, 3e-5));
  CHECK_THAT(incremental_gain(stage, 0.0), WithinRel(0.97, 1e-5));
}

// [SedraSmith2015], problem 12.19: gain variation of 5 % between 0 and 50 mA into 100 ohm; the
// words leave open whether the difference or the ratio is meant.
TEST_CASE("Two milliamperes keep the gain within 5 % from rest to fifty milliamperes",
          "[solve][published]") {
  const auto pair_idling_at = [](double idle_a) {
    return held_pair(2.0 * 0.025 * std::log(idle_a / 1e-13), "saturation_current=1e-13A");
  };
  // The input at which 50 mA flow in the load: 5 V and the rise of the base-emitter voltage.
  const auto input_for_50_ma = [](double idle_a) {
    return 5.0 + 0.025 * std::asinh(50e-3 / (2.0 * idle_a));
  };
  const auto gain_at_50_ma = [&](double idle_a) {
    return incremental_gain(pair_idling_at(idle_a), input_for_50_ma(idle_a));
  };
  const auto gain_at_rest = [&](double idle_a) {
    return incremental_gain(pair_idling_at(idle_a), 0.0);
  };
  CHECK_THAT(gain_at_50_ma(2.1495e-3) - gain_at_rest(2.1495e-3), WithinRel(0.05, 1e-4));
  CHECK_THAT(gain_at_rest(2.1598e-3) / gain_at_50_ma(2.1598e-3), WithinRel(0.95, 1e-5));
}

// [SedraSmith2015], problem 12.22: a single supply and a coupling capacitor, VBE = 0.7 V at 1 mA,
// 1.4 V of spread. The capacitor keeps its charge during the step: it is held.
TEST_CASE("A coupled output needs more than a volt of input for a step of one volt",
          "[solve][published]") {
  const auto circuit = drawn(fmt::format(
      R"(
ambient {kelvin}K
rail vcc 10V resistance=0R
hold V1 b_hi b_lo 1.4V
hold VI b_lo gnd 4.3V
npn  Q1 c=vcc b=b_hi e=out type=upper
pnp  Q2 c=gnd b=b_lo e=out type=lower
hold C1 out far 5V
resistor RL far gnd 100R
type npn upper vbe=0.7V vbe_at=1mA gain=1e12 measured_at={kelvin}K
type pnp lower vbe=0.7V vbe_at=1mA gain=1e12 measured_at={kelvin}K
)",
      fmt::arg("kelvin", kelvin_at_25_mv)));
  CHECK_THAT(solved(circuit)("amps Q1"), WithinRel(1e-3, 1e-6));
  const Solved step = solved(changed(circuit, fmt::format("VI is {}V", 4.3 - 1.057811)));
  CHECK_THAT(step("volts far gnd"), WithinRel(-1.0, 1e-6));
  CHECK_THAT(step("amps Q1"), WithinRel(99.0195e-6, 3e-5));
  CHECK_THAT(step("amps Q2"), WithinRel(10.099020e-3, 1e-5));
  CHECK_THAT(step("volts out b_lo") - 0.7, WithinRel(57.811e-3, 2e-5));
}

// [SedraSmith2015], problem 12.43: a transistor across 6.50540 ohm takes 2 mA of the drive at 100
// mA, IS = 1e-14 A, VT = 25 mV; at 75 mA it is asleep.
TEST_CASE("A current limiter wakes up between three quarters of its current and the whole",
          "[solve][published]") {
  const auto circuit = drawn(fmt::format(
      R"(
ambient {kelvin}K
hold VD drive gnd 5V
feed I1 100mA from=gnd into=top compliance=none
resistor RE top gnd 6R5054
npn  Q5 c=drive b=top e=gnd type=limiter
type npn limiter saturation_current=1e-14A gain=1e12 measured_at={kelvin}K
)",
      fmt::arg("kelvin", kelvin_at_25_mv)));
  CHECK_THAT(solved(circuit)("amps Q5"), WithinRel(2e-3, 1e-4));
  CHECK_THAT(solved(changed(circuit, "I1 is 75mA"))("amps Q5"), WithinRel(2.9907e-6, 2e-5));
}

// [SedraSmith2015], problem 12.54: thresholds of 3 V, 2 A/V2, 100 mA: 3.3162 V at each gate. The
// law here rounds the foot of the square law, which is 0.07 % at this overdrive.
TEST_CASE("A MOSFET pair idles at 100 mA with 6.63 volts between its gates", "[solve][published]") {
  const Solved stage = solved(R"(
rail vpos +30V resistance=0R
rail vneg -30V resistance=0R
hold V1 g_hi gnd 3.31623V
hold V2 gnd g_lo 3.31623V
n-mosfet Q1 d=vpos g=g_hi s=out type=upper
p-mosfet Q2 d=vneg g=g_lo s=out type=lower
type n-mosfet upper threshold_voltage=3V current_factor=2A/V2
type p-mosfet lower threshold_voltage=3V current_factor=2A/V2
)");
  CHECK_THAT(stage("amps Q1"), WithinRel(0.100, 1e-3));
  CHECK_THAT(stage("amps Q2"), WithinRel(0.100, 1e-3));
  CHECK_THAT(stage("volts out gnd"), WithinAbs(0.0, 1e-6));
}

}  // namespace idlepoint::tests
