// Oracle: the square law and the exponential law between which [EnzKrummenacherVittoz1995] runs.
#include <catch2/catch.hpp>
#include <cmath>

#include "devices/fet.hpp"
#include "laws/room.hpp"

namespace idlepoint::laws {

using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;
using devices::evaluate_fet;
using devices::fet_at;
using devices::FetData;

namespace {

const FetData power_fet{
    .threshold_voltage_v = 3.0, .current_factor_a_per_v2 = 2.0, .drain_slope_per_v = 0.01};
const FetData lateral_fet{
    .threshold_voltage_v = 0.6, .current_factor_a_per_v2 = 1.5, .slope_factor = 1.35};

double drain_a(const FetData& data, double ugs_v, double uds_v) {
  return evaluate_fet(fet_at(data, room_k), ugs_v, uds_v).drain_a;
}

}  // namespace

TEST_CASE("Well above threshold a saturated channel follows the square law",
          "[devices][analytic]") {
  for (const double over : {1.5, 2.0, 4.0, 8.0}) {
    CAPTURE(over);
    CHECK_THAT(drain_a(power_fet, 3.0 + over, 20.0), WithinRel(1.0 * over * over * 1.2, 1e-10));
    CHECK_THAT(drain_a(lateral_fet, 0.6 + over, 30.0),
               WithinRel(1.5 / (2.0 * 1.35) * over * over, 1e-8));
  }
}

TEST_CASE("Below its knee a channel follows K (Uov Uds - n Uds^2/2)", "[devices][analytic]") {
  for (const double uds : {1e-3, 0.05, 0.5, 1.5}) {
    CAPTURE(uds);
    CHECK_THAT(drain_a(power_fet, 3.0 + 6.0, uds),
               WithinRel(2.0 * (6.0 * uds - uds * uds / 2.0) * (1.0 + 0.01 * uds), 1e-11));
    CHECK_THAT(drain_a(lateral_fet, 0.6 + 6.0, uds),
               WithinRel(1.5 * (6.0 * uds - 1.35 * uds * uds / 2.0), 1e-11));
  }
}

TEST_CASE("Well below threshold a channel follows exp(u/(n UT))", "[devices][analytic]") {
  const double n = 1.35;
  for (const double under : {0.5, 0.6, 0.9}) {
    for (const double uds : {0.01, 0.1, 5.0}) {
      const double closed_a = 2.0 * n * room_u_v * room_u_v * 1.5 *
                              std::exp(-under / (n * room_u_v)) * -std::expm1(-uds / room_u_v);
      CAPTURE(under, uds);
      // The next term of the series is exp(-under/(2 n UT)).
      CHECK_THAT(drain_a(lateral_fet, 0.6 - under, uds),
                 WithinRel(closed_a, 1.5 * std::exp(-under / (2.0 * n * room_u_v))));
    }
  }
}

TEST_CASE("A channel is symmetrical: drain and source may change places", "[devices][identity]") {
  // With n = 1 the law depends on gate-source and gate-drain voltage alike.
  for (const double ugs : {2.5, 3.1, 4.0, 7.0}) {
    for (const double uds : {0.02, 0.4, 3.0}) {
      CAPTURE(ugs, uds);
      const double forward_a = drain_a(power_fet, ugs, uds);
      CHECK_THAT(drain_a(power_fet, ugs - uds, -uds), WithinRel(-forward_a, 1e-12));
    }
  }
}

TEST_CASE("A junction FET with gate on source takes its IDSS", "[devices][analytic]") {
  FetData data{.is_junction = true, .threshold_voltage_v = -2.2, .threshold_tempco_v_per_k = -2e-3};
  data.current_factor_a_per_v2 = devices::current_factor_from_idss(6e-3, -2.2);
  CHECK_THAT(data.current_factor_a_per_v2, WithinRel(2.0 * 6e-3 / 4.84, 1e-14));
  CHECK_THAT(drain_a(data, 0.0, 10.0), WithinRel(6e-3, 1e-9));
  // Half the pinch-off voltage leaves a quarter.
  CHECK_THAT(drain_a(data, -1.1, 10.0), WithinRel(1.5e-3, 1e-7));
}

// [SedraSmith2015], problem 12.54, computed from its data: |Vt| = 3 V, k = 2 A/V^2, IQ = 100 mA:
// |VGS| = 3.3162 V.
TEST_CASE("100 mA through a MOSFET of 3 V and 2 A/V2 needs 3.3162 V", "[devices][published]") {
  const FetData data{.threshold_voltage_v = 3.0, .current_factor_a_per_v2 = 2.0};
  CHECK_THAT(drain_a(data, 3.3162, 10.0), WithinRel(0.1, 5e-3));
}

TEST_CASE("A MOSFET has a current at which heat changes nothing", "[devices][analytic]") {
  // Square law: dI/dT = 0 where K'/K (Ugs - Ut) = 2 Ut', K' = -1.5 K/T, Ut' = -5 mV/K.
  const FetData data{.threshold_voltage_v = 3.0, .current_factor_a_per_v2 = 2.0};
  const double over_v = 2.0 * 5e-3 * room_k / 1.5;
  const auto at = fet_at(data, room_k);
  const double g = evaluate_fet(at, 3.0 + over_v, 20.0).by_ugs_s;
  CHECK_THAT(evaluate_fet(at, 3.0 + over_v, 20.0).drain_a_per_k / g, WithinAbs(0.0, 1e-9));
  CHECK(evaluate_fet(at, 3.0 + over_v / 2.0, 20.0).drain_a_per_k > 0.0);
  CHECK(evaluate_fet(at, 3.0 + over_v * 1.5, 20.0).drain_a_per_k < 0.0);
}

TEST_CASE("The two terms of the drain law make the drain current", "[devices][identity]") {
  for (const double ugs : {2.0, 3.2, 6.0}) {
    for (const double uds : {-3.0, 0.1, 12.0}) {
      const auto now = evaluate_fet(fet_at(power_fet, room_k), ugs, uds);
      CAPTURE(ugs, uds);
      CHECK_THAT(now.forward_a - now.reverse_a,
                 WithinAbs(now.drain_a, 1e-13 * (now.forward_a + now.reverse_a)));
    }
  }
}

}  // namespace idlepoint::laws
