// Oracle: a source, a resistor and a junction in series close in Lambert's W (Boost.Math), and the
// worked examples of textbooks, each cited at its case (docs/sources.md).
#include <boost/math/special_functions/lambert_w.hpp>
#include <catch2/catch.hpp>
#include <cmath>

#include "devices/bipolar.hpp"
#include "devices/diode.hpp"

namespace idlepoint::laws {

using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;
using devices::diode_at;
using devices::DiodeData;
using devices::evaluate_diode;

namespace {

/// The temperature at which kT/q is a textbook's round figure.
double temperature_of(double thermal_v) { return thermal_v * 1.602176634e-19 / 1.380649e-23; }

/// A diode with its data measured at that temperature, so that nothing scales.
DiodeData measured_at(double thermal_v, double saturation_a, double ideality = 1.0) {
  return {.saturation_current_a = saturation_a,
          .ideality = ideality,
          .measured_at_k = temperature_of(thermal_v)};
}

double current_a(const DiodeData& data, double junction_v) {
  return evaluate_diode(diode_at(data, data.measured_at_k), junction_v).current_a;
}

}  // namespace

TEST_CASE("A junction behind a resistor carries the Lambert-W current", "[devices][analytic]") {
  const double supply_v = GENERATE(0.1, 0.7, 5.0);
  const double ideality = GENERATE(1.0, 1.05, 2.0);
  const double resistance_ohm = 470.0;
  const double saturation_a = 2e-12;
  const double scale_v = ideality * 0.0293;
  const double leak_v = resistance_ohm * saturation_a;
  const double x = leak_v / scale_v * std::exp((supply_v + leak_v) / scale_v);
  const double book_a = (scale_v * boost::math::lambert_w0(x) - leak_v) / resistance_ohm;
  const double junction_v = supply_v - resistance_ohm * book_a;
  CAPTURE(supply_v, ideality, junction_v);
  // The voltage is a difference of near numbers: its last digits limit the comparison.
  CHECK_THAT(current_a(measured_at(0.0293, saturation_a, ideality), junction_v),
             WithinRel(book_a, 1e-9));
}

// Is = 25 fA, 0.3 ohm, UT = 25.9 mV: method and data of [BanwellJayakumar2000].
TEST_CASE("Banwell and Jayakumar's diode carries their closed-form currents",
          "[devices][analytic]") {
  struct Point {
    double supply_v;
    double book_a;
  };
  for (const Point& p : {Point{0.5, 6.05303123e-6},
                         Point{0.6, 2.86664550e-4},
                         Point{0.7, 1.190528775e-2},
                         Point{0.8, 1.353637560e-1},
                         Point{0.9, 3.796605040e-1},
                         Point{1.0, 6.646487839e-1}}) {
    CAPTURE(p.supply_v);
    CHECK_THAT(current_a(measured_at(0.0259, 25e-15), p.supply_v - 0.3 * p.book_a),
               WithinRel(p.book_a, 1e-8));
  }
}

// One half of a complementary pair with emitter resistor, I = (UT/RE) W((Is RE/UT) e^(V/UT)).
TEST_CASE("A complementary pair with emitter resistors stands at its closed-form current",
          "[devices][analytic]") {
  const double u = 25.692579e-3;
  const double t = temperature_of(u);
  struct Point {
    double spread_v;
    double book_a;
  };
  for (const Point& p : {Point{1.20, 12.466365e-3},
                         Point{1.25, 28.704045e-3},
                         Point{1.30, 58.730988e-3},
                         Point{1.35, 104.771187e-3}}) {
    const double by_w =
        u / 0.22 * boost::math::lambert_w0(1e-12 * 0.22 / u * std::exp(p.spread_v / (2 * u)));
    CAPTURE(p.spread_v);
    CHECK_THAT(by_w, WithinRel(p.book_a, 1e-7));
    const devices::BipolarData half{.saturation_current_a = 1e-12, .gain = 1e9, .measured_at_k = t};
    const double ube_v = 0.5 * p.spread_v - 0.22 * by_w;
    const auto now = devices::evaluate_bipolar(devices::bipolar_at(half, t), ube_v, -20.0);
    CHECK_THAT(now.collector_a, WithinRel(p.book_a, 1e-7));
  }
}

// [Neamen2001] example 1.6: 5 V, 2 k, Is = 1e-13 A, VT = 26 mV: 0.619 V and 2.19 mA printed.
TEST_CASE("Neamen's diode at 5 V behind 2 k carries 2.19 mA at 0.619 V", "[devices][published]") {
  const DiodeData data = measured_at(0.026, 1e-13);
  const double printed_v = 0.6190591;  // More digits of the same equations.
  CHECK_THAT(current_a(data, printed_v), WithinRel((5.0 - printed_v) / 2000.0, 1e-5));
  CHECK_THAT(current_a(data, printed_v), WithinAbs(2.19e-3, 0.005e-3));
}

// [SedraSmith2015] (example 3.4 of the fifth edition): 5 V, 1 k, 1 mA at 0.7 V, 0.1 V a decade.
// Printed: 4.237 mA, 0.762 V; the further digits solve the same equations.
TEST_CASE("Sedra and Smith's diode at 5 V behind 1 k carries 4.237 mA", "[devices][published]") {
  const double scale_v = 0.1 / std::log(10.0);
  const double saturation_a = 1e-3 / std::expm1(0.7 / scale_v);
  const DiodeData data = measured_at(scale_v / 1.7, saturation_a, 1.7);
  CHECK_THAT(current_a(data, 0.7627088), WithinRel(4.2372912e-3, 5e-6));
  CHECK_THAT(current_a(data, 0.7627088), WithinAbs(4.237e-3, 0.0005e-3));
}

// [Neamen2001] example 1.5: Is = 1e-14 A, VT = 26 mV: 4.93 mA at 0.7 V, -1e-14 A at -0.7 V.
TEST_CASE("Neamen's diode of 1e-14 A carries 4.93 mA at 0.7 V and leaks 1e-14 A backwards",
          "[devices][published]") {
  const DiodeData data = measured_at(0.026, 1e-14);
  CHECK_THAT(current_a(data, 0.7), WithinAbs(4.93e-3, 0.005e-3));
  CHECK_THAT(current_a(data, -0.7), WithinRel(-1e-14, 1e-9));
}

// [SedraSmith2015] (example 3.7 of the fifth edition): three diodes, n = 2, VT = 25 mV, 7.9 mA.
// Printed: 18.99 ohm in all.
TEST_CASE("Three diodes at 7.9 mA have the book's 18.99 ohms together", "[devices][published]") {
  const double saturation_a = 7.9e-3 / std::expm1(0.7 / 0.05);
  const DiodeData data = measured_at(0.025, saturation_a, 2.0);
  const auto now = evaluate_diode(diode_at(data, data.measured_at_k), 0.7);
  CHECK_THAT(3.0 / now.conductance_s, WithinAbs(18.99, 0.005));
}

}  // namespace idlepoint::laws
