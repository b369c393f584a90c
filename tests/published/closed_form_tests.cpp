// Oracle: junctions behind resistors close in Lambert's W, taken from Boost.Math; constants are
// this file's own copies.
#include <boost/math/special_functions/lambert_w.hpp>
#include <cmath>

#include "published/solve_text.hpp"

namespace idlepoint::tests {
namespace {

constexpr double volts_per_kelvin = 1.380649e-23 / 1.602176634e-19;

/// I = (nVT/R) W0(x) - IS, x = (R IS / nVT) exp((V + R IS) / nVT).
double lambert_current_a(double supply_v, double ohm, double saturation_a, double scale_v) {
  const double leak_v = ohm * saturation_a;
  const double x = leak_v / scale_v * std::exp((supply_v + leak_v) / scale_v);
  return (scale_v * boost::math::lambert_w0(x) - leak_v) / ohm;
}

}  // namespace

TEST_CASE("A diode behind a resistor carries the Lambert-W current from text to state",
          "[solve][analytic]") {
  const double supply_v = GENERATE(0.05, 0.4, 0.7, 2.0, 12.0);
  const double ohm = GENERATE(0.5, 47.0, 10e3);
  const double ideality = GENERATE(1.0, 1.9);
  const double kelvin = GENERATE(273.15, 298.15, 345.0);
  const Solved stage = solved(fmt::format(
      R"(
ambient {kelvin}K
hold V1 in gnd {supply}V
resistor R1 in a {ohm}
diode D1 anode=a cathode=gnd type=plain
type diode plain saturation_current=2e-13A ideality={ideality} measured_at={kelvin}K
)",
      fmt::arg("kelvin", kelvin),
      fmt::arg("supply", supply_v),
      fmt::arg("ohm", ohm),
      fmt::arg("ideality", ideality)));
  CAPTURE(supply_v, ohm, ideality, kelvin);
  const double scale_v = ideality * volts_per_kelvin * kelvin;
  const double current_a = lambert_current_a(supply_v, ohm, 2e-13, scale_v);
  CHECK_THAT(stage("amps D1"), WithinRel(current_a, 1e-8) || WithinAbs(current_a, 2e-12));
}

TEST_CASE("A diode's own series resistance and a resistor before it are one and the same",
          "[solve][analytic]") {
  const double supply_v = GENERATE(0.5, 0.8, 1.5);
  const Solved stage = solved(fmt::format(
      R"(
hold V1 in gnd {}V
resistor R1 in a 1R7
diode D1 anode=a cathode=gnd type=resistive
type diode resistive saturation_current=1e-12A series_resistance=0R8
)",
      supply_v));
  const double current_a = lambert_current_a(supply_v, 2.5, 1e-12, volts_per_kelvin * 298.15);
  CAPTURE(supply_v);
  CHECK_THAT(stage("amps D1"), WithinRel(current_a, 1e-8));
}

TEST_CASE("N junctions in one body carry what one of N times the scale would",
          "[solve][analytic]") {
  const int junctions = GENERATE(2, 3, 4);
  const Solved stage = solved(fmt::format(
      R"(
hold V1 in gnd 5V
resistor R1 in a 820R
diode D1 anode=a cathode=gnd type=plain junctions={}
type diode plain saturation_current=5e-14A ideality=1.2
)",
      junctions));
  const double scale_v = junctions * 1.2 * volts_per_kelvin * 298.15;
  CHECK_THAT(stage("amps D1"), WithinRel(lambert_current_a(5.0, 820.0, 5e-14, scale_v), 1e-8));
}

// [BanwellJayakumar2000], in the numbers of Boost.Math's own example: IS = 25 fA, 0.3 ohm, VT
// = 25.9 mV.
TEST_CASE("The diode of the Lambert-W letter has the current computed from its parameters",
          "[solve][published]") {
  struct Point {
    double supply_v;
    double current_a;
  };
  const auto point = GENERATE(Point{0.5, 6.05303123e-6},
                              Point{0.6, 2.86664550e-4},
                              Point{0.7, 1.190528775e-2},
                              Point{0.8, 1.353637560e-1},
                              Point{0.9, 3.796605040e-1},
                              Point{1.0, 6.646487839e-1});
  const Solved stage = solved(fmt::format(
      R"(
ambient {kelvin}K
hold V1 in gnd {supply}V
diode D1 anode=in cathode=gnd type=letter
type diode letter saturation_current=25fA series_resistance=0R3 measured_at={kelvin}K
)",
      fmt::arg("kelvin", "300.5570193481471"),  // kT/q = 25.9 mV.
      fmt::arg("supply", point.supply_v)));
  CAPTURE(point.supply_v);
  CHECK_THAT(stage("amps D1"), WithinRel(point.current_a, 1e-8));
}

}  // namespace idlepoint::tests
