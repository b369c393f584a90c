// Oracle: worked examples of textbooks on current mirrors and long-tailed pairs, and the pair's
// identity I / (1 + exp(-v / VT)).
#include <cmath>

#include "published/solve_text.hpp"

namespace idlepoint::tests {
namespace {

/// A mirror between two supplies; its output held at `output_v`.
std::string mirror(const std::string& upper,
                   const std::string& resistor,
                   const std::string& output_v,
                   const std::string& data) {
  return fmt::format(
      R"(
hold V1 top gnd {}
hold V2 vneg gnd -5V
hold V3 out gnd {}
resistor R1 top base {}
npn Q1 c=base b=base e=vneg type=like
npn Q2 c=out b=base e=vneg type=like
type npn like {}
)",
      upper,
      output_v,
      resistor,
      data);
}

/// A pair on an ideal tail of 1 mA, without base current.
std::string pair(double difference_v) {
  return fmt::format(
      R"(
hold V1 vpos gnd 10V
hold V2 vneg gnd -10V
hold V3 in gnd {}V
resistor RC1 vpos c1 10k
resistor RC2 vpos c2 10k
npn Q1 c=c1 b=in e=tail type=like
npn Q2 c=c2 b=gnd e=tail type=like
feed I1 1mA from=tail into=vneg compliance=none
type npn like vbe=0.7V vbe_at=0.5mA gain=1e12
)",
      difference_v);
}

}  // namespace

// [Neamen2001], example 3.16: -5 V, 10k to ground, gain 50, 0.7 V.
TEST_CASE("A mirror loses two base currents between reference and copy", "[solve][published]") {
  const Solved stage = solved(mirror("0V", "10k", "0V", "vbe=0.7V vbe_at=0.42173077mA gain=50"));
  CHECK_THAT(stage("amps R1"), WithinRel(0.43e-3, exact));
  CHECK_THAT(stage("amps Q2"), WithinRel(0.41346e-3, 2 * exact));
  // 2 pA of the reference are lost in the board's insulation.
  CHECK_THAT(stage("amps Q2"), WithinRel(stage("amps R1") / (1.0 + 2.0 / 50.0), 1e-8));
}

// [Neamen2001], example 10.2: +-5 V, 9.3k, gain 50, Early voltage 80 V. Printed: 1 mA, 0.962
// mA, 83.2k, a change of 5.2 to 5.4 % over 4.3 V.
TEST_CASE("A copy rises by a twentieth over four volts with an Early voltage of eighty",
          "[solve][published]") {
  const char* const data = "vbe=0.7V vbe_at=0.98077mA gain=50 early_voltage=80V";
  const Solved level = solved(mirror("5V", "9k3", "-4.3V", data));
  CHECK_THAT(level("amps R1"), WithinRel(1e-3, 1e-4));
  CHECK_THAT(level("amps Q2"), WithinRel(0.9615e-3, 2e-4));
  const Solved raised = solved(mirror("5V", "9k3", "0V", data));
  const double change = raised("amps Q2") / level("amps Q2") - 1.0;
  CHECK(change > 0.052 - 0.0005);
  CHECK(change < 0.054 + 0.0005);
  const double slope_s =
      slope(drawn(mirror("5V", "9k3", "-4.3V", data)), {"V3", -4.3, 0.01, "V"}, "amps Q2");
  CHECK_THAT(1.0 / slope_s, WithinRel(83.2e3, 1e-3));
}

// [Neamen2001], example 10.1: 200 uA wanted, 0.6 V, gain 100, 5 V. Printed: 204 uA, 21.6 kohm.
TEST_CASE("A mirror's resistor is found from the current it should copy", "[solve][published]") {
  const solve::Adjusted stage = adjusted(published("current-mirror"));
  CHECK_THAT(track_ohm(stage, 0), WithinRel(21.57e3, 2e-4));
  CHECK_THAT(track_ohm(stage, 0), WithinRel((5.0 - 0.6) / 204e-6, exact));
}

// [Neamen2001], example 11.1: +-10 V, 1 mA, 10k. Printed: 0.5 mA, 5 V, 5.7 V.
TEST_CASE("A pair at rest shares its tail equally", "[solve][published]") {
  const Solved stage = solved(pair(0.0));
  CHECK_THAT(stage("amps Q1"), WithinRel(0.5e-3, exact));
  CHECK_THAT(stage("amps Q2"), WithinRel(0.5e-3, exact));
  CHECK_THAT(stage("volts c1 gnd"), WithinRel(5.0, exact));
  CHECK_THAT(stage("volts c1 tail"), WithinRel(5.7, exact));
}

// [MalvinoBates2007], example 17-2. Printed: 1.91 mA, 0.953 mA, 10.2 V.
TEST_CASE("A pair on a tail resistor carries what its negative rail leaves", "[solve][published]") {
  const Solved stage = solved(published("differential-pair"));
  CHECK_THAT(stage("amps RE"), WithinAbs(1.91e-3, 0.005e-3));
  CHECK_THAT(stage("amps Q2"), WithinAbs(0.953e-3, 0.0005e-3));
  CHECK_THAT(stage("volts c2 gnd"), WithinAbs(10.23, 0.005));
  CHECK_THAT(stage("amps RE"), WithinRel(14.3 / 7500.0, exact));
}

TEST_CASE("A pair divides its tail by the exponential of its input", "[solve][identity]") {
  const double difference_v = GENERATE(-0.2, -0.05, -0.001, 0.018, 0.1);
  const Solved stage = solved(pair(difference_v));
  CAPTURE(difference_v);
  CHECK_THAT(stage("amps Q1"),
             WithinRel(1e-3 / (1.0 + std::exp(-difference_v / room_thermal_v)), 1e-8));
  CHECK_THAT(stage("amps Q1") + stage("amps Q2"), WithinRel(1e-3, 1e-9));
}

}  // namespace idlepoint::tests
