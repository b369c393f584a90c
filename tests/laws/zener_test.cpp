// Oracle: the breakdown term in closed form: the sheet's voltage at the sheet's test current, and
// its temperature coefficient.
#include <catch2/catch.hpp>
#include <cmath>

#include "devices/diode.hpp"
#include "laws/room.hpp"

namespace idlepoint::laws {

using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;
using devices::diode_at;
using devices::DiodeData;
using devices::evaluate_diode;

namespace {

const DiodeData zener{.saturation_current_a = 1e-13,
                      .zener_voltage_v = 6.2,
                      .zener_test_current_a = 5e-3,
                      .zener_ideality = 2.0,
                      .zener_tempco_per_k = 400e-6};

}  // namespace

TEST_CASE("A zener drops its rated voltage at its test current", "[devices][analytic]") {
  const auto now = evaluate_diode(diode_at(zener, 298.15), -6.2);
  CHECK_THAT(now.current_a, WithinRel(-5e-3, 1e-10));
  // Its slope resistance there is mz UT / Iz.
  CHECK_THAT(1.0 / now.conductance_s, WithinRel(2.0 * room_u_v / 5e-3, 1e-9));
  // A decade less current takes mz UT ln 10 less voltage.
  CHECK_THAT(
      evaluate_diode(diode_at(zener, 298.15), -6.2 + 2.0 * room_u_v * std::log(10.0)).current_a,
      WithinRel(-0.5e-3, 1e-9));
}

TEST_CASE("A zener's voltage moves by its temperature coefficient", "[devices][analytic]") {
  for (const double t : {273.15, 348.15, 398.15}) {
    const double hot_v = 6.2 * (1.0 + 400e-6 * (t - 298.15));
    CAPTURE(t, hot_v);
    // The hot junction's own leakage comes on top.
    CHECK_THAT(evaluate_diode(diode_at(zener, t), -hot_v).current_a, WithinRel(-5e-3, 1e-5));
  }
}

TEST_CASE("Forward, a zener is a plain diode", "[devices][identity]") {
  DiodeData plain = zener;
  plain.zener_voltage_v.reset();
  for (const double v : {0.0, 0.3, 0.6, 0.75}) {
    CAPTURE(v);
    CHECK_THAT(evaluate_diode(diode_at(zener, 310.0), v).current_a,
               WithinAbs(evaluate_diode(diode_at(plain, 310.0), v).current_a, 1e-40));
  }
}

TEST_CASE("A reversed plain diode leaks its saturation current at any voltage",
          "[devices][analytic]") {
  const DiodeData plain{.saturation_current_a = 3e-12};
  for (const double v : {-2.0, -50.0, -1000.0}) {
    CHECK(evaluate_diode(diode_at(plain, 298.15), v).current_a == -3e-12);
  }
}

}  // namespace idlepoint::laws
