// Oracle: the limiting rule in closed form: the exponential at the new voltage carries the current
// that the old tangent predicted.
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "devices/junction.hpp"

namespace idlepoint::laws {

using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;
using devices::critical_voltage;
using devices::limited_junction_voltage;

namespace {

constexpr double junction_scale_v = 0.0257;
constexpr double junction_saturation_a = 1e-14;

}  // namespace

TEST_CASE("A limited step lands where the exponential carries the predicted current",
          "[devices][analytic]") {
  const double critical_v = critical_voltage(junction_saturation_a, junction_scale_v);
  for (const double last_v : {0.65, 0.7, 0.8}) {
    for (const double step_v : {0.02, 0.3, 10.0}) {
      const double landed_v =
          limited_junction_voltage(last_v + step_v, last_v, junction_scale_v, critical_v);
      const double start_v = std::max(last_v, critical_v - 20.0 * junction_scale_v);
      const double predicted = std::exp(start_v / junction_scale_v) *
                               (1.0 + (last_v + step_v - start_v) / junction_scale_v);
      CAPTURE(last_v, step_v, landed_v);
      if (last_v + step_v - start_v > 0.1 * junction_scale_v) {
        CHECK_THAT(std::exp(landed_v / junction_scale_v), WithinRel(predicted, 1e-11));
      }
      CHECK(landed_v <= last_v + step_v);
      CHECK(landed_v >= last_v);
    }
  }
}

TEST_CASE("Harmless steps are left alone", "[devices][identity]") {
  const double critical_v = critical_voltage(junction_saturation_a, junction_scale_v);
  CHECK(limited_junction_voltage(0.1, -5.0, junction_scale_v, critical_v) == 0.1);
  CHECK(limited_junction_voltage(-40.0, 0.1, junction_scale_v, critical_v) == -40.0);
  CHECK(limited_junction_voltage(0.71, 0.72, junction_scale_v, critical_v) == 0.71);
  CHECK(limited_junction_voltage(0.7201, 0.72, junction_scale_v, critical_v) == 0.7201);
}

TEST_CASE("From far below the step starts where the junction begins to conduct",
          "[devices][analytic]") {
  const double critical_v = critical_voltage(junction_saturation_a, junction_scale_v);
  const double landed_v = limited_junction_voltage(30.0, -5.0, junction_scale_v, critical_v);
  const double start_v = critical_v - 20.0 * junction_scale_v;
  CHECK_THAT(landed_v,
             WithinAbs(start_v + junction_scale_v * std::log1p((30.0 - start_v) / junction_scale_v),
                       1e-12));
  CHECK(landed_v < 1.0);
}

TEST_CASE("A conducting junction lets go over several steps", "[devices][analytic]") {
  const double critical_v = critical_voltage(junction_saturation_a, junction_scale_v);
  const double reach_v = 1.5 * junction_scale_v;
  double v = 0.7;
  int steps = 0;
  for (; v > -40.0 && steps < 10; ++steps) {
    const double landed_v = limited_junction_voltage(-40.0, v, junction_scale_v, critical_v);
    if (landed_v > -40.0) {
      CHECK_THAT(landed_v, WithinAbs(v - reach_v * std::log1p((v + 40.0) / reach_v), 1e-12));
    }
    v = landed_v;
  }
  CHECK(v == -40.0);
  CHECK(steps >= 2);
}

TEST_CASE("The critical voltage is where the curve bends most", "[devices][analytic]") {
  // Curvature I'' / (1 + I'^2)^(3/2) in the units of the plot is largest where I' = 1/sqrt 2.
  const double critical_v = critical_voltage(junction_saturation_a, junction_scale_v);
  const double slope =
      junction_saturation_a / junction_scale_v * std::exp(critical_v / junction_scale_v);
  CHECK_THAT(slope, WithinRel(1.0 / std::numbers::sqrt2, 1e-12));
}

}  // namespace idlepoint::laws
