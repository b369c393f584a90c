// Oracle: the textbooks' rules for the offset of a pair (VT times the mismatch; from memory, they
// are in every text, as in [SedraSmith2015]) and for the offset that input currents make in the
// feedback resistors ([Franco2002], example 5.1).
#include <cmath>

#include "published/solve_text.hpp"

namespace idlepoint::tests {
namespace {

/// A pair on a tail of 1 mA; the halves may differ in collector resistor and saturation current.
struct Halves {
  double left_ohm = 10e3;
  double right_ohm = 10e3;
  double left_is_a = 1e-14;
  double right_is_a = 1e-14;
};

double output_v(const Halves& halves, double input_v) {
  return solved(fmt::format(
      R"(
ambient {kelvin}K
hold V1 vpos gnd 10V
hold V2 vneg gnd -10V
hold V3 in gnd {input}V
resistor RC1 vpos c1 {left_ohm}
resistor RC2 vpos c2 {right_ohm}
npn Q1 c=c1 b=in e=tail type=left
npn Q2 c=c2 b=gnd e=tail type=right
feed I1 1mA from=tail into=vneg compliance=none
type npn left saturation_current={left_is}A gain=1e12 measured_at={kelvin}K
type npn right saturation_current={right_is}A gain=1e12 measured_at={kelvin}K
)",
      fmt::arg("kelvin", kelvin_at_25_mv),
      fmt::arg("input", input_v),
      fmt::arg("left_ohm", halves.left_ohm),
      fmt::arg("right_ohm", halves.right_ohm),
      fmt::arg("left_is", halves.left_is_a),
      fmt::arg("right_is", halves.right_is_a)))("volts c2 c1");
}

/// The resting output divided by the gain: what the input must make good.
double input_offset_v(const Halves& halves) {
  const double step_v = 1e-5;
  const double gain = (output_v(halves, step_v) - output_v(halves, -step_v)) / (2.0 * step_v);
  return output_v(halves, 0.0) / gain;
}

/// The feedback amplifier with its three resistors divided by `by`, RP kept or shorted, and its two
/// input transistors' gains. 8 uA flow in each collector.
double resting_output_v(double by, bool balanced, double plus_gain, double minus_gain) {
  auto circuit = published("feedback-offset");
  const std::string rp =
      balanced ? fmt::format("RP is {}", 22e3 * 2.2e6 / 2.222e6 / by) : std::string("RP short");
  for (const std::string& change : {fmt::format("R1 is {}", 22e3 / by),
                                    fmt::format("R2 is {}", 2.2e6 / by),
                                    rp,
                                    fmt::format("Q1 gain {}", plus_gain),
                                    fmt::format("Q2 gain {}", minus_gain)}) {
    circuit = changed(circuit, change);
  }
  return solved(circuit)("volts out gnd");
}

constexpr double mean_gain = 100.0;  // 80 nA of 8 uA.

}  // namespace

TEST_CASE("Collector resistors two per cent apart are half a millivolt of offset",
          "[solve][published]") {
  const double offset_v = input_offset_v({.left_ohm = 10.1e3, .right_ohm = 9.9e3});
  CHECK_THAT(std::abs(offset_v), WithinRel(0.5e-3, 1e-3));
}

TEST_CASE("An input of kT/q times the log of the resistors' ratio levels a pair's output",
          "[solve][identity]") {
  const Halves halves{.left_ohm = 10.1e3, .right_ohm = 9.9e3};
  CHECK_THAT(output_v(halves, 0.025 * std::log(9.9 / 10.1)), WithinAbs(0.0, 1e-8));
}

TEST_CASE("Saturation currents a tenth apart are two and a half millivolts of offset",
          "[solve][published]") {
  const double offset_v = input_offset_v({.left_is_a = 1.05e-14, .right_is_a = 0.95e-14});
  CHECK_THAT(std::abs(offset_v), WithinRel(2.5e-3, 5e-3));
}

TEST_CASE("Gains a tenth apart are a tenth of the base current of offset current",
          "[solve][published]") {
  const Solved stage = solved(R"(
hold V1 vpos gnd 10V
hold V2 vneg gnd -10V
npn Q1 c=vpos b=gnd e=tail type=high
npn Q2 c=vpos b=gnd e=tail type=low
feed I1 1mA from=tail into=vneg compliance=none
type npn high saturation_current=10fA gain=105
type npn low saturation_current=10fA gain=95
)");
  const double high_gain_a = base_current_a(stage, "Q1");
  const double low_gain_a = base_current_a(stage, "Q2");
  CHECK_THAT((low_gain_a - high_gain_a) / (0.5 * (low_gain_a + high_gain_a)), WithinRel(0.1, 3e-3));
}

// [Franco2002], example 5.1: 22k and 2.2M, 80 nA, 20 nA of difference. Printed: 175 mV without a
// resistor in the other input, 44 mV with their parallel value there, 4.4 mV with all three ten
// times smaller, 0.7 mV with a difference of 3 nA.
TEST_CASE("Input currents through the feedback resistors lift the output by 176 mV",
          "[solve][published]") {
  const double offset_v = resting_output_v(1.0, false, mean_gain, mean_gain);
  CHECK_THAT(offset_v, WithinRel(175e-3, 0.01));
  CHECK_THAT(offset_v, WithinRel(2.2e6 * 80e-9, 1e-5));
}

TEST_CASE("Equal resistances at both inputs take out all but the difference of their currents",
          "[solve][published]") {
  CHECK_THAT(resting_output_v(1.0, true, mean_gain, mean_gain), WithinAbs(0.0, 1e-6));
  const double offset_v = resting_output_v(1.0, true, 8.0 / 0.09, 8.0 / 0.07);
  CHECK_THAT(offset_v, WithinAbs(-44e-3, 0.5e-3));
  CHECK_THAT(offset_v, WithinRel(-2.2e6 * 20e-9, 1e-5));
}

TEST_CASE("Ten times smaller resistors and a better pair leave less than a millivolt",
          "[solve][published]") {
  CHECK_THAT(resting_output_v(10.0, true, 8.0 / 0.09, 8.0 / 0.07), WithinRel(-4.4e-3, 1e-4));
  CHECK_THAT(resting_output_v(10.0, true, 8.0 / 0.0815, 8.0 / 0.0785), WithinRel(-0.66e-3, 1e-4));
}

}  // namespace idlepoint::tests
