// Oracle: a complementary pair with emitter resistors, without base current: each half obeys
// VBB/2 = VT ln(I/IS) + I RE, which closes in Lambert's W (Boost.Math), moves by 1 / (2 (RE +
// VT/I)) for each volt of spread, and has the flattest output resistance at I = VT/RE
// ([Oliver1971]).
#include <boost/math/special_functions/lambert_w.hpp>
#include <cmath>

#include "published/solve_text.hpp"

namespace idlepoint::tests {
namespace {

/// The pair, its bases `spread_v` apart about ground, at the temperature where kT/q is `thermal_v`.
std::string pair_with_resistors(double spread_v, double emitter_ohm, double thermal_v) {
  return fmt::format(
      R"(
ambient {kelvin}K
rail vpos +35V resistance=0R
rail vneg -35V resistance=0R
hold V1 b_hi b_lo {spread}V
hold V2 gnd b_lo {half}V
npn Q1 c=vpos b=b_hi e=e_hi type=upper
resistor R1 e_hi out {ohm}
resistor R2 out e_lo {ohm}
pnp Q2 c=vneg b=b_lo e=e_lo type=lower
feed I1 0A from=gnd into=out compliance=none
type npn upper saturation_current=1pA gain=1e12 measured_at={kelvin}K
type pnp lower saturation_current=1pA gain=1e12 measured_at={kelvin}K
)",
      fmt::arg("kelvin", thermal_v * 1.602176634e-19 / 1.380649e-23),
      fmt::arg("spread", spread_v),
      fmt::arg("half", spread_v / 2.0),
      fmt::arg("ohm", emitter_ohm));
}

/// The spread at which the pair idles at `idle_a`.
double spread_for_v(double idle_a, double emitter_ohm, double thermal_v) {
  return 2.0 * (thermal_v * std::log(idle_a / 1e-12) + idle_a * emitter_ohm);
}

/// d(output volts)/d(amperes fed in) at a standing current of `idle_a`, `out_a` being fed in.
double output_ohm(double idle_a, double emitter_ohm, double out_a) {
  const double spread_v = spread_for_v(idle_a, emitter_ohm, 0.026);
  const auto circuit = drawn(pair_with_resistors(spread_v, emitter_ohm, 0.026));
  return slope(circuit, {"I1", out_a, (idle_a + out_a) / 1000.0, "A"}, "volts out gnd");
}

}  // namespace

TEST_CASE("A complementary pair with emitter resistors carries the Lambert-W current",
          "[solve][analytic]") {
  struct Idle {
    double spread_v;
    double current_a;
  };
  const auto idle = GENERATE(Idle{1.20, 12.466365e-3},
                             Idle{1.25, 28.704045e-3},
                             Idle{1.30, 58.730988e-3},
                             Idle{1.35, 104.771187e-3});
  const double thermal_v = 25.692579e-3;
  const Solved stage = solved(pair_with_resistors(idle.spread_v, 0.22, thermal_v));
  CAPTURE(idle.spread_v);
  const double x = 1e-12 * 0.22 / thermal_v * std::exp(idle.spread_v / (2.0 * thermal_v));
  const double current_a = thermal_v / 0.22 * boost::math::lambert_w0(x);
  CHECK_THAT(current_a, WithinRel(idle.current_a, 1e-7));
  CHECK_THAT(stage("amps Q1"), WithinRel(current_a, 1e-8));
  CHECK_THAT(stage("amps Q2"), WithinRel(current_a, 1e-8));
  CHECK_THAT(stage("volts e_hi e_lo"), WithinRel(0.44 * current_a, 1e-8));
  CHECK_THAT(stage("volts out gnd"), WithinAbs(0.0, 1e-10));
}

// VT = 26 mV: 1.1355, 0.6757, 0.5318 and 0.9615 mA for each millivolt of spread.
TEST_CASE("A millivolt of spread moves the standing current by about a milliampere",
          "[solve][analytic]") {
  struct Case {
    double emitter_ohm;
    double idle_a;
    double slope_s;
  };
  const auto row = GENERATE(Case{0.22, 118e-3, 1.1355},
                            Case{0.22, 50e-3, 0.6757},
                            Case{0.47, 55.3e-3, 0.5318},
                            Case{0.0, 50e-3, 0.9615});
  CAPTURE(row.emitter_ohm, row.idle_a);
  const double spread_v = spread_for_v(row.idle_a, row.emitter_ohm, 0.026);
  const auto circuit = drawn(pair_with_resistors(spread_v, row.emitter_ohm, 0.026));
  CHECK_THAT(solved(circuit)("amps Q1"), WithinRel(row.idle_a, 1e-9));
  // The lower base stands still while the upper one moves: the output follows by half.
  const double slope_s = slope(circuit, {"V1", spread_v, 1e-5, "V"}, "amps Q1");
  CHECK_THAT(slope_s, WithinRel(row.slope_s, 1e-4));
}

// [Oliver1971]: 26 mV across each emitter resistor, such as 118 mA in 0.22 ohm.
TEST_CASE("With kT/q across each emitter resistor the output resistance at rest is that resistor",
          "[solve][published]") {
  const double emitter_ohm = GENERATE(0.1, 0.22, 0.33, 0.47, 1.0);
  const double idle_a = 0.026 / emitter_ohm;
  CAPTURE(emitter_ohm);
  CHECK_THAT(output_ohm(idle_a, emitter_ohm, 0.0), WithinRel(emitter_ohm, 1e-5));
  // Far from rest one half alone carries the current: VT/I more, a hundredth.
  CHECK_THAT(output_ohm(idle_a, emitter_ohm, 100.0 * idle_a), WithinRel(emitter_ohm, 0.011));
}

TEST_CASE("Too little standing current is a soft spot in the middle and too much a stiff one",
          "[solve][published]") {
  const double best_a = 0.026 / 0.22;
  CHECK_THAT(output_ohm(0.5 * best_a, 0.22, 0.0), WithinRel(0.33, 1e-5));
  CHECK_THAT(output_ohm(2.0 * best_a, 0.22, 0.0), WithinRel(0.165, 1e-5));
}

}  // namespace idlepoint::tests
