// Oracle: worked examples of textbooks on zener diodes. A book's zener holds its voltage at any
// current; here it is one whose voltage moves 1 mV for each e-fold of current (zener_ideality
// 0.04).
#include "published/solve_text.hpp"

namespace idlepoint::tests {
namespace {

/// A supply, a series resistor and a zener of `volts`, stated at `test_current`.
std::string zener_supply(const std::string& supply,
                         const std::string& series,
                         const std::string& volts,
                         const std::string& test_current,
                         const std::string& load = "1G") {
  return fmt::format(
      R"(
hold V1 in gnd {supply}
resistor RS in out {series}
diode D1 anode=gnd cathode=out type=zener
resistor RL out gnd {load}
type diode zener saturation_current=1fA zener_voltage={volts} zener_test_current={current}
           zener_ideality=0.04
)",
      fmt::arg("supply", supply),
      fmt::arg("series", series),
      fmt::arg("load", load),
      fmt::arg("volts", volts),
      fmt::arg("current", test_current));
}

}  // namespace

// [Boylestad2013], example 2.26: 16 V, 1 kohm, VZ = 10 V. Printed: RL 1.2 kohm: off, 8.73 V; RL 3
// kohm: on, 2.67 mA, 26.7 mW.
TEST_CASE("A zener conducts only where the divider would exceed its voltage",
          "[solve][published]") {
  const Solved off = solved(zener_supply("16V", "1k", "10V", "2.67mA", "1k2"));
  CHECK_THAT(off("volts out gnd"), WithinAbs(8.73, 0.005));
  CHECK_THAT(off("volts out gnd"), WithinRel(16.0 * 1.2 / 2.2, 1e-9));
  CHECK_THAT(off("amps D1"), WithinAbs(0.0, 1e-12));

  const Solved on = solved(zener_supply("16V", "1k", "10V", "2.67mA", "3k"));
  CHECK_THAT(on("amps D1"), WithinAbs(-2.67e-3, 0.005e-3));
  CHECK_THAT(on("watts D1"), WithinAbs(26.7e-3, 0.05e-3));
}

// [Boylestad2013], example 2.27: 50 V, 1 kohm, VZ = 10 V, IZM = 32 mA. Printed: RL from 250 ohm
// (the zener about to go out) to 1.25 kohm (at its limit).
TEST_CASE("A zener regulates between the printed smallest and largest load", "[solve][published]") {
  const Solved lightest = solved(zener_supply("50V", "1k", "10V", "32mA", "1k25"));
  CHECK_THAT(lightest("amps D1"), WithinRel(-32e-3, 1e-4));
  const Solved heaviest = solved(zener_supply("50V", "1k", "10V", "32mA", "250R"));
  CHECK_THAT(heaviest("volts out gnd"), WithinRel(10.0, 2e-3));
  CHECK_THAT(heaviest("amps D1"), WithinAbs(0.0, 0.1e-3));
  const Solved beyond = solved(zener_supply("50V", "1k", "10V", "32mA", "200R"));
  CHECK_THAT(beyond("volts out gnd"), WithinRel(50.0 / 6.0, 1e-9));
}

// [Boylestad2013], example 2.28: 220 ohm, VZ = 20 V, RL = 1.2 kohm, IZM = 60 mA. Printed: supply
// from 23.67 to 36.87 V. (The parts' values are from memory; the printed limits follow from them.)
TEST_CASE("A zener regulates between the printed smallest and largest supply",
          "[solve][published]") {
  const Solved most = solved(zener_supply("36.87V", "220R", "20V", "60mA", "1k2"));
  CHECK_THAT(most("amps D1"), WithinRel(-60e-3, 1e-3));
  const Solved least = solved(zener_supply("23.67V", "220R", "20V", "60mA", "1k2"));
  CHECK_THAT(least("volts out gnd"), WithinRel(20.0, 1e-3));
  CHECK_THAT(least("amps D1"), WithinAbs(0.0, 0.1e-3));
}

// [MalvinoBates2007], example 5-1: 820 ohm, VZ = 10 V. Printed: 12.2 mA at 20 V, 36.6 mA at 40 V.
TEST_CASE("The current of a zener follows its supply", "[solve][published]") {
  CHECK_THAT(solved(zener_supply("20V", "820R", "10V", "12.2mA"))("amps D1"),
             WithinAbs(-12.2e-3, 0.05e-3));
  CHECK_THAT(solved(zener_supply("40V", "820R", "10V", "36.6mA"))("amps D1"),
             WithinAbs(-36.6e-3, 0.05e-3));
}

// [MalvinoBates2007], example 5-3: 18 V, 270 ohm, VZ = 10 V, RL = 1 kohm. Printed (19.6 mA): 19.63
// mA.
TEST_CASE("A zener takes what the load leaves", "[solve][published]") {
  CHECK_THAT(solved(zener_supply("18V", "270R", "10V", "19.63mA", "1k"))("amps D1"),
             WithinAbs(-19.63e-3, 0.005e-3));
}

// [MalvinoBates2007], example 5-7: a zener of 10 V and 8.5 ohm at 20 mA. Printed: 10.17 V. The
// knee's voltage is stated at the same 20 mA, so that the resistance alone adds to it.
TEST_CASE("The resistance of a zener adds its drop to the knee", "[solve][published]") {
  const Solved stage = solved(R"(
feed I1 20mA from=gnd into=out compliance=none
diode D1 anode=gnd cathode=out type=zener
type diode zener saturation_current=1fA zener_voltage=10V zener_test_current=20mA
           zener_ideality=0.04 series_resistance=8R5
)");
  CHECK_THAT(stage("volts out gnd"), WithinRel(10.17, 1e-6));
}

}  // namespace idlepoint::tests
