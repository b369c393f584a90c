// Oracle: continuity. Where a law is continued for Newton's sake, value and slope must meet.
#include <catch2/catch.hpp>
#include <cmath>

#include "devices/bipolar.hpp"
#include "devices/diode.hpp"
#include "devices/exponential.hpp"
#include "devices/fet.hpp"
#include "devices/passive.hpp"
#include "laws/room.hpp"

namespace idlepoint::laws {

using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;
using namespace devices;

namespace {

const BipolarData with_early{
    .saturation_current_a = 1e-14, .gain = 100.0, .early_voltage_v = 0.5, .knee_current_a = 1.0};

bool all_finite(const BipolarTangent& now) {
  for (const double number : {now.collector_a,
                              now.base_a,
                              now.collector_by_ube_s,
                              now.collector_by_ubc_s,
                              now.base_by_ube_s,
                              now.base_by_ubc_s,
                              now.collector_a_per_k,
                              now.base_a_per_k}) {
    if (!std::isfinite(number)) return false;
  }
  return true;
}

}  // namespace

TEST_CASE("The exponential goes over into its own tangent at 80", "[devices][analytic]") {
  const Growth<double> below = growth(largest_exponent);
  const Growth<double> above = growth(std::nextafter(largest_exponent, 100.0));
  CHECK_THAT(below.less_one, WithinRel(std::exp(80.0), 1e-15));
  CHECK_THAT(above.less_one, WithinRel(below.less_one, 1e-13));
  CHECK_THAT(above.slope, WithinRel(below.slope, 1e-13));
  CHECK_THAT(growth(90.0).less_one, WithinRel(11.0 * std::exp(80.0), 1e-14));
  CHECK(growth(-1e6).less_one == -1.0);
  CHECK(growth(-1e6).slope == 0.0);
}

TEST_CASE("A junction's curve has no step at any seam of its arithmetic", "[devices][identity]") {
  const JunctionAt at{.saturation_a = 1e-12,
                      .saturation_a_per_k = 1.6e-13,
                      .scale_v = 0.026,
                      .scale_v_per_k = 8.6e-5};
  // Below -40 and within a tenth of zero the exponential is taken another way; above 80 the guard.
  for (const double seam : {-40.0, -0.1, 0.1, 80.0}) {
    const double v = seam * at.scale_v;
    const JunctionTangent below = evaluate_junction(at, v - 1e-13);
    const JunctionTangent above = evaluate_junction(at, v + 1e-13);
    CAPTURE(seam);
    CHECK_THAT(above.current_a, WithinRel(below.current_a, 1e-10));
    CHECK_THAT(above.conductance_s,
               WithinRel(below.conductance_s, 1e-10) || WithinAbs(below.conductance_s, 1e-27));
    CHECK_THAT(above.slope_a_per_k, WithinRel(below.slope_a_per_k, 1e-10));
  }
}

TEST_CASE("Where the Early term runs out the current goes on smoothly and is flagged",
          "[devices][identity]") {
  const BipolarAt at = bipolar_at(with_early, room_k);
  // w = 1 - Ubc/0.5 V reaches its last thousandth at 0.4995 V.
  const double seam_v = 0.5 * (1.0 - 1e-3);
  const BipolarTangent inside = evaluate_bipolar(at, 0.7, seam_v - 1e-12);
  const BipolarTangent outside = evaluate_bipolar(at, 0.7, seam_v + 1e-12);
  CHECK(inside.in_range);
  CHECK_FALSE(outside.in_range);
  CHECK_THAT(outside.collector_a, WithinRel(inside.collector_a, 1e-6));
  CHECK_THAT(outside.collector_by_ube_s, WithinRel(inside.collector_by_ube_s, 1e-6));
  CHECK_THAT(outside.collector_by_ubc_s, WithinRel(inside.collector_by_ubc_s, 1e-6));
  CHECK_FALSE(evaluate_bipolar(at, 0.7, 0.6).in_range);
}

TEST_CASE("Out of its range the continued law keeps exact slopes", "[devices][identity]") {
  // The reverse knee below four saturation currents makes 1 + 4 h negative in reverse.
  const BipolarData no_root{.saturation_current_a = 1e-6,
                            .gain = 100.0,
                            .knee_current_a = 2e-6,
                            .inverse_knee_current_a = 2e-6};
  struct Case {
    BipolarData data;
    double ube_v, ubc_v;
  };
  for (const Case& c : {Case{with_early, 0.7, 0.55},
                        Case{with_early, 0.6, 2.0},
                        Case{no_root, -0.5, -0.4},
                        Case{no_root, -0.05, -0.2}}) {
    const BipolarAt at = bipolar_at(c.data, room_k);
    const BipolarTangent now = evaluate_bipolar(at, c.ube_v, c.ubc_v);
    const double step = 1e-6;
    const double by_ube = (evaluate_bipolar(at, c.ube_v + step, c.ubc_v).collector_a -
                           evaluate_bipolar(at, c.ube_v - step, c.ubc_v).collector_a) /
                          (2.0 * step);
    const double by_ubc = (evaluate_bipolar(at, c.ube_v, c.ubc_v + step).collector_a -
                           evaluate_bipolar(at, c.ube_v, c.ubc_v - step).collector_a) /
                          (2.0 * step);
    const double size = std::abs(now.collector_a) + 1e-6;
    CAPTURE(c.ube_v, c.ubc_v);
    CHECK_FALSE(now.in_range);
    CHECK_THAT(now.collector_by_ube_s, WithinRel(by_ube, 1e-6) || WithinAbs(by_ube, 1e-7 * size));
    CHECK_THAT(now.collector_by_ubc_s, WithinRel(by_ubc, 1e-6) || WithinAbs(by_ubc, 1e-7 * size));
  }
}

TEST_CASE("Any voltage up to a megavolt gives finite numbers", "[devices][identity]") {
  const BipolarData full{.saturation_current_a = 1e-13,
                         .gain = 100.0,
                         .early_voltage_v = 50.0,
                         .inverse_early_voltage_v = 10.0,
                         .knee_current_a = 1.0,
                         .inverse_knee_current_a = 1.0,
                         .recombination_current_a = 1e-12,
                         .collector_recombination_current_a = 1e-12,
                         .cutoff_current_a = 1e-9,
                         .emitter_base_breakdown_voltage_v = 7.0};
  const DiodeData zener{
      .saturation_current_a = 1e-13, .zener_voltage_v = 6.2, .zener_test_current_a = 5e-3};
  const FetData fet{.threshold_voltage_v = 3.0,
                    .current_factor_a_per_v2 = 5.0,
                    .slope_factor = 1.3,
                    .drain_slope_per_v = 0.02};
  const auto voltages = {-1e6, -1e3, -60.0, -3.0, 0.0, 3.0, 60.0, 1e3, 1e6};
  for (const double t : {200.0, 298.15, 673.15}) {
    for (const double a : voltages) {
      const JunctionTangent diode = evaluate_diode(diode_at(zener, t), a);
      CAPTURE(t, a);
      CHECK((std::isfinite(diode.current_a) && std::isfinite(diode.conductance_s) &&
             std::isfinite(diode.slope_a_per_k)));
      const FeedTangent feed = evaluate_feed(5e-3, 0.3, a);
      CHECK((std::isfinite(feed.current_a) && std::isfinite(feed.conductance_s)));
      for (const double b : voltages) {
        CAPTURE(b);
        CHECK(all_finite(evaluate_bipolar(bipolar_at(full, t), a, b)));
        const FetTangent channel = evaluate_fet(fet_at(fet, t), a, b);
        CHECK((std::isfinite(channel.drain_a) && std::isfinite(channel.by_ugs_s) &&
               std::isfinite(channel.by_uds_s) && std::isfinite(channel.drain_a_per_k)));
      }
    }
  }
}

TEST_CASE("A channel's slope is continuous where the drain voltage changes sign",
          "[devices][identity]") {
  const FetAt at = fet_at(
      {.threshold_voltage_v = 3.0, .current_factor_a_per_v2 = 5.0, .drain_slope_per_v = 0.05},
      room_k);
  const double before_s = evaluate_fet(at, 5.0, -1e-12).by_uds_s;
  const double after_s = evaluate_fet(at, 5.0, 1e-12).by_uds_s;
  CHECK_THAT(after_s, WithinRel(before_s, 1e-10));
  CHECK_THAT(after_s, WithinRel(5.0 * 2.0, 1e-9));  // K (Ugs - Ut)
}

}  // namespace idlepoint::laws
