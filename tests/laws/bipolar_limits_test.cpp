// Oracle: closed forms that textbooks give for the limits of the charge control law.
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "devices/bipolar.hpp"
#include "laws/room.hpp"

namespace idlepoint::laws {

using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;
using devices::bipolar_at;
using devices::BipolarData;
using devices::BipolarTangent;
using devices::evaluate_bipolar;

namespace {

BipolarTangent at_room(const BipolarData& data, double ube_v, double ubc_v) {
  return evaluate_bipolar(bipolar_at(data, room_k), ube_v, ubc_v);
}

}  // namespace

// [EbersMoll1954]: forward active region.
TEST_CASE("A bare transistor carries Is exp(U/UT), and its base that over the gain",
          "[devices][analytic]") {
  const BipolarData data{.saturation_current_a = 1e-14, .gain = 50.0};
  for (const double ube : {0.5, 0.6, 0.7, 0.8}) {
    const BipolarTangent now = at_room(data, ube, -10.0);
    const double collector_a = 1e-14 * std::exp(ube / room_u_v);
    CAPTURE(ube);
    CHECK_THAT(now.collector_a, WithinRel(collector_a, 1e-5));
    CHECK_THAT(now.collector_a, WithinAbs(collector_a, 1e-13));
    CHECK_THAT(now.base_a, WithinAbs(collector_a / 50.0, 1e-13));
    // Transconductance IC/UT.
    CHECK_THAT(now.collector_by_ube_s, WithinRel(collector_a / room_u_v, 1e-12));
  }
}

// [SedraSmith2015], problem 12.17, computed from its data: VT = 25 mV, IS = 1e-14 A, IQ = 1 mA
// needs 2 VBE = 1.266422 V. 25 mV is the thermal voltage at 290.113 K.
TEST_CASE("Two junctions of 1e-14 A at 1 mA and UT = 25 mV take 1.266422 V",
          "[devices][published]") {
  const double t = 0.025 * 1.602176634e-19 / 1.380649e-23;
  const BipolarData data{.saturation_current_a = 1e-14, .gain = 100.0, .measured_at_k = t};
  const BipolarTangent now = evaluate_bipolar(bipolar_at(data, t), 1.266422 / 2.0, -5.0);
  CHECK_THAT(now.collector_a, WithinRel(1e-3, 2e-5));
}

// [EbersMoll1954], [Getreu1976]: VCE = UT ln((1 + (IC/IB)(1 - aR)) / (aR (1 - IC/(B IB)))).
TEST_CASE("A bottomed transistor shows the saturation voltage of Ebers and Moll",
          "[devices][analytic]") {
  const BipolarData data{.saturation_current_a = 1e-14, .gain = 100.0, .inverse_gain = 3.0};
  const double inverse_alpha = 3.0 / 4.0;
  for (const double vce : {0.03, 0.06, 0.1, 0.15, 0.2}) {
    const double ube = 0.72;
    const BipolarTangent now = at_room(data, ube, ube - vce);
    const double forced = now.collector_a / now.base_a;
    const double closed_v = room_u_v * std::log((1.0 + forced * (1.0 - inverse_alpha)) /
                                                (inverse_alpha * (1.0 - forced / 100.0)));
    CAPTURE(vce, forced);
    CHECK_THAT(closed_v, WithinAbs(vce, 1e-9));
  }
}

TEST_CASE("Driven the other way round a transistor has its inverse gain", "[devices][analytic]") {
  const BipolarData data{.saturation_current_a = 1e-14, .gain = 100.0, .inverse_gain = 2.5};
  const BipolarTangent now = at_room(data, -3.0, 0.65);
  const double emitter_a = -(now.collector_a + now.base_a);
  CHECK_THAT(emitter_a / now.base_a, WithinRel(2.5, 1e-9));
  CHECK(now.collector_a < 0.0);
}

// [Early1952]: the tangents to the output curves meet at minus the Early voltage.
TEST_CASE("Output curves run back to the Early voltage", "[devices][analytic]") {
  const BipolarData data{.saturation_current_a = 1e-14, .gain = 100.0, .early_voltage_v = 75.0};
  for (const double ube : {0.55, 0.65, 0.75}) {
    const BipolarTangent near = at_room(data, ube, -2.0);
    const double crossing_v = -2.0 - near.collector_a / near.collector_by_ubc_s;
    CAPTURE(ube);
    CHECK_THAT(crossing_v, WithinRel(75.0, 1e-6));
    const double far_a = at_room(data, ube, -40.0).collector_a;
    CHECK_THAT(far_a / near.collector_a, WithinRel((75.0 + 40.0) / (75.0 + 2.0), 1e-6));
  }
}

// [GummelPoon1970]: beyond the knee the collector current follows sqrt(Is Ik) exp(U/(2 UT)).
TEST_CASE("Beyond the knee the collector current follows half the exponent",
          "[devices][analytic]") {
  const BipolarData data{.saturation_current_a = 1e-12, .gain = 100.0, .knee_current_a = 1e-3};
  for (const double ube : {1.0, 1.1, 1.2}) {
    const BipolarTangent now = at_room(data, ube, -1.0);
    const double asymptote_a = std::sqrt(1e-12 * 1e-3) * std::exp(ube / (2.0 * room_u_v));
    // The law is asymptote / (sqrt(1 + e^2) + e) with e = sqrt(Ik/f)/2.
    const double e = 0.5 * std::sqrt(1e-3 / (1e-12 * std::exp(ube / room_u_v)));
    CAPTURE(ube);
    CHECK_THAT(now.collector_a, WithinRel(asymptote_a, 1.2 * e));
    CHECK_THAT(now.collector_a, WithinRel(asymptote_a / (std::sqrt(1.0 + e * e) + e), 1e-9));
    CHECK_THAT(now.collector_by_ube_s * 2.0 * room_u_v / now.collector_a, WithinAbs(1.0, 1.2 * e));
  }
}

TEST_CASE("At f = Ik the knee has cost a golden ratio", "[devices][analytic]") {
  const BipolarData data{.saturation_current_a = 1e-14, .gain = 100.0, .knee_current_a = 0.5};
  const BipolarTangent now = at_room(data, room_u_v * std::log(0.5 / 1e-14), -5.0);
  CHECK_THAT(now.collector_a, WithinRel(0.5 / std::numbers::phi, 1e-10));
  CHECK_THAT(now.base_a, WithinRel(0.5 / 100.0, 1e-10));
}

// [GummelPoon1970]: the recombination term gives the base current its slope of 1/(2 UT).
TEST_CASE("At small currents recombination takes the gain away", "[devices][analytic]") {
  const BipolarData data{
      .saturation_current_a = 1e-14, .gain = 200.0, .recombination_current_a = 1e-12};
  const BipolarTangent now = at_room(data, 0.3, -5.0);
  CHECK_THAT(now.base_by_ube_s * 2.0 * room_u_v / now.base_a, WithinRel(1.0, 0.02));
  CHECK(now.collector_a / now.base_a < 20.0);
  const BipolarTangent busy = at_room(data, 0.75, -5.0);
  CHECK_THAT(busy.collector_a / busy.base_a, WithinRel(200.0, 0.01));
}

TEST_CASE("An open germanium base multiplies the cut-off current", "[devices][analytic]") {
  // With the base open, ICEO = ICBO (1 + B): the base current that the cut-off current feeds.
  const BipolarData data{
      .saturation_current_a = 1e-8, .gain = 40.0, .inverse_gain = 40.0, .cutoff_current_a = 5e-6};
  double low_v = 0.0;
  double high_v = 0.5;
  for (int i = 0; i < 200; ++i) {
    const double middle_v = 0.5 * (low_v + high_v);
    (at_room(data, middle_v, middle_v - 10.0).base_a < 0.0 ? low_v : high_v) = middle_v;
  }
  const double open_base_a = at_room(data, low_v, low_v - 10.0).collector_a;
  // 1e-8 A of transport current takes part too: r/Bi = -2.5e-10 A in the base.
  CHECK_THAT(open_base_a, WithinRel(5e-6 * 41.0, 2e-3));
}

TEST_CASE("A base-emitter junction breaks down with 10 uA at its breakdown voltage",
          "[devices][analytic]") {
  const BipolarData data{
      .saturation_current_a = 1e-14, .gain = 100.0, .emitter_base_breakdown_voltage_v = 7.0};
  CHECK_THAT(at_room(data, -7.0, -20.0).base_a, WithinRel(-10e-6, 1e-8));
  // A tenth of it, the limit of over-stress, lies UT ln 10 before.
  const double alarm_v = -7.0 + room_u_v * std::log(10.0);
  CHECK(at_room(data, alarm_v - 1e-9, -20.0).in_breakdown);
  CHECK_FALSE(at_room(data, alarm_v + 1e-9, -20.0).in_breakdown);
  const BipolarData without{.saturation_current_a = 1e-14, .gain = 100.0};
  CHECK_THAT(at_room(without, -7.0, -20.0).base_a, WithinAbs(0.0, 1e-13));
}

}  // namespace idlepoint::laws
