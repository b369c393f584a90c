// Oracle: lamp, rerating exponents of [FinkBeaty]; thermistor, the beta law read from two points;
// feed, a logistic curve's known points.
#include <catch2/catch.hpp>
#include <cmath>

#include "devices/passive.hpp"

namespace idlepoint::laws {

using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;
using namespace devices;

TEST_CASE("A lamp at its rated voltage draws its rated power", "[devices][analytic]") {
  for (const auto& [v, w] : {std::pair{230.0, 60.0}, {120.0, 100.0}, {12.0, 5.0}}) {
    CAPTURE(v, w);
    // The smooth cold end costs 0.225 * 0.003^2 = 2e-6 of it.
    CHECK_THAT(evaluate_lamp(v, w, v).current_a, WithinRel(w / v, 3e-6));
    CHECK_THAT(evaluate_lamp(v, w, -v).current_a, WithinRel(-w / v, 3e-6));
  }
}

// I goes as V^0.55, R as V^0.45, rerating rule of [FinkBeaty].
TEST_CASE("A lamp below its rated voltage follows the rerating table", "[devices][published]") {
  struct Row {
    double share;
    double current, resistance;
  };
  for (const Row& row : {Row{0.1, 0.2818, 0.3548},
                         Row{0.2, 0.4126, 0.4847},
                         Row{0.3, 0.5157, 0.5817},
                         Row{0.5, 0.6830, 0.7320},
                         Row{0.7, 0.8219, 0.8517}}) {
    const double current_a = evaluate_lamp(230.0, 100.0, 230.0 * row.share).current_a;
    CAPTURE(row.share);
    // To four printed digits, and to the smooth cold end's 0.225 (0.003/share)^2.
    const double end = 0.225 * std::pow(0.003 / row.share, 2);
    CHECK_THAT(current_a / (100.0 / 230.0), WithinRel(row.current, 2e-4 + end));
    CHECK_THAT(230.0 * row.share / current_a / 529.0, WithinRel(row.resistance, 2e-4 + end));
  }
}

TEST_CASE("A cold lamp has a thirteenth of its hot resistance", "[devices][published]") {
  // 0.003^0.45 = 0.073; about one in 13 to 15 is what hand-books give.
  const double cold_ohm = 1.0 / evaluate_lamp(230.0, 100.0, 0.0).conductance_s;
  CHECK_THAT(cold_ohm / 529.0, WithinAbs(0.073, 0.0005));
  CHECK(cold_ohm > 529.0 / 15.0);
}

TEST_CASE("A lamp's slope equals the central difference of its current", "[devices][identity]") {
  for (const double v : {-230.0, -3.0, -0.2, 0.0, 0.01, 0.69, 40.0, 230.0}) {
    const double step = 1e-5;
    const double slope = (evaluate_lamp(230.0, 60.0, v + step).current_a -
                          evaluate_lamp(230.0, 60.0, v - step).current_a) /
                         (2.0 * step);
    CAPTURE(v);
    CHECK_THAT(evaluate_lamp(230.0, 60.0, v).conductance_s, WithinRel(slope, 1e-7));
  }
}

TEST_CASE("A feed has half its current at its compliance voltage", "[devices][analytic]") {
  CHECK_THAT(evaluate_feed(5e-3, 0.3, 0.3).current_a, WithinRel(2.5e-3, 1e-15));
  CHECK_THAT(evaluate_feed(5e-3, 0.3, 0.3).conductance_s, WithinRel(5e-3 / 4.0 / 0.05, 1e-15));
  // 0.05 V ln 9 further it has nine tenths, as far below a tenth.
  CHECK_THAT(evaluate_feed(5e-3, 0.3, 0.3 + 0.05 * std::log(9.0)).current_a,
             WithinRel(4.5e-3, 1e-14));
  CHECK_THAT(evaluate_feed(5e-3, 0.3, 0.3 - 0.05 * std::log(9.0)).current_a,
             WithinRel(0.5e-3, 1e-13));
  CHECK(evaluate_feed(5e-3, 0.3, 30.0).current_a == 5e-3);
  CHECK(evaluate_feed(5e-3, 0.3, -60.0).current_a == 0.0);
}

TEST_CASE("A feed's slope equals the central difference of its current", "[devices][identity]") {
  for (const double v : {-0.5, 0.0, 0.25, 0.3, 0.4, 0.8}) {
    const double step = 1e-6;
    const double slope = (evaluate_feed(5e-3, 0.3, v + step).current_a -
                          evaluate_feed(5e-3, 0.3, v - step).current_a) /
                         (2.0 * step);
    CAPTURE(v);
    CHECK_THAT(evaluate_feed(5e-3, 0.3, v).conductance_s,
               WithinRel(slope, 1e-7) || WithinAbs(slope, 1e-9));
  }
}

TEST_CASE("A thermistor's two points give the beta that gives them back", "[devices][identity]") {
  for (const double at_50c : {60.0, 180.0, 420.0}) {
    const double beta_k = beta_from_two_points(470.0, at_50c);
    CAPTURE(at_50c, beta_k);
    CHECK_THAT(thermistor_resistance(470.0, beta_k, 298.15).ohm, WithinRel(470.0, 1e-14));
    CHECK_THAT(thermistor_resistance(470.0, beta_k, 323.15).ohm, WithinRel(at_50c, 1e-13));
  }
  // ln 2 / (1/298.15 K - 1/323.15 K): a part that halves from 25 to 50 C.
  CHECK_THAT(beta_from_two_points(100.0, 50.0), WithinAbs(2671.3, 0.1));
}

TEST_CASE("Resistances move with temperature by their slopes", "[devices][identity]") {
  for (const double t : {263.15, 298.15, 353.15}) {
    const double step = 1e-3;
    const double slope = (thermistor_resistance(470.0, 3500.0, t + step).ohm -
                          thermistor_resistance(470.0, 3500.0, t - step).ohm) /
                         (2.0 * step);
    CAPTURE(t);
    CHECK_THAT(thermistor_resistance(470.0, 3500.0, t).ohm_per_k, WithinRel(slope, 1e-8));
  }
  // 1 k of 100 ppm/K: 1005 ohms at 75 C.
  CHECK_THAT(resistor_resistance(1000.0, 100e-6, 348.15).ohm, WithinRel(1005.0, 1e-14));
  CHECK_THAT(resistor_resistance(1000.0, 100e-6, 348.15).ohm_per_k, WithinRel(0.1, 1e-14));
}

}  // namespace idlepoint::laws
