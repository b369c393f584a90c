// Oracle: worked examples of textbooks with one or a few diodes. Printed figures with the book's
// rounding; "exact" is the solution of the same equations. Where a book takes 0.7 V, the diode here
// drops 0.7 V at the book's own current.
#include "published/solve_text.hpp"

namespace idlepoint::tests {
namespace {

constexpr const char* kelvin_at_26_mv = "301.71747116030207";  // kT/q = 26 mV.

/// A supply, a resistor and a diode in series.
std::string supply_resistor_diode(const std::string& supply,
                                  const std::string& resistor,
                                  const std::string& kelvin,
                                  const std::string& data) {
  return fmt::format(
      R"(
ambient {kelvin}K
hold V1 in gnd {supply}
resistor R1 in a {resistor}
diode D1 anode=a cathode=gnd type=plain
type diode plain {data} measured_at={kelvin}K
)",
      fmt::arg("kelvin", kelvin),
      fmt::arg("supply", supply),
      fmt::arg("resistor", resistor),
      fmt::arg("data", data));
}

}  // namespace

// [Neamen2001], example 1.6: 5 V, 2 kohm, IS = 1e-13 A, VT = 26 mV. Printed: 0.619 V, 2.19 mA.
TEST_CASE("Five volts and two kilohms put 2.19 mA into a silicon diode", "[solve][published]") {
  const Solved stage =
      solved(supply_resistor_diode("5V", "2k", kelvin_at_26_mv, "saturation_current=1e-13A"));
  CHECK_THAT(stage("volts a gnd"), WithinAbs(0.619, 5e-4));
  CHECK_THAT(stage("amps D1"), WithinAbs(2.19e-3, 5e-6));
  CHECK_THAT(stage("volts a gnd"), WithinRel(0.6190591, 1e-7));
  CHECK_THAT(stage("amps D1"), WithinRel(2.1904704e-3, 1e-7));
}

// [SedraSmith2015], example on iterative analysis (3.4 of the fifth edition): 5 V, 1 kohm, 1 mA at
// 0.7 V and 0.1 V a decade, which is n VT = 43.4294 mV. Printed: 4.237 mA, 0.762 V (its last
// iterate).
TEST_CASE("A diode of a tenth of a volt a decade carries 4.237 mA behind a kilohm",
          "[solve][published]") {
  const Solved stage = solved(supply_resistor_diode(
      "5V", "1k", kelvin_at_25_mv, "vf=0.7V vf_at=1mA ideality=1.7371779276130073"));
  CHECK_THAT(stage("amps D1"), WithinAbs(4.237e-3, 1e-6));
  CHECK_THAT(stage("volts a gnd"), WithinAbs(0.762, 1e-3));
  CHECK_THAT(stage("amps D1"), WithinRel(4.2372912e-3, 1e-7));
  CHECK_THAT(stage("volts a gnd"), WithinRel(0.7627088, 1e-7));
}

// [Neamen2001], example 1.5: IS = 1e-14 A, VT = 26 mV. Printed: 4.93 mA at 0.7 V, -1e-14 A at -0.7
// V.
TEST_CASE("A diode carries milliamperes one way and its saturation current the other",
          "[solve][published]") {
  const auto across = [](const char* volts) {
    return solved(fmt::format(
        R"(
ambient {kelvin}K
hold V1 a gnd {volts}
diode D1 anode=a cathode=gnd type=plain
type diode plain saturation_current=1e-14A measured_at={kelvin}K
)",
        fmt::arg("kelvin", kelvin_at_26_mv),
        fmt::arg("volts", volts)))("amps D1");
  };
  CHECK_THAT(across("0.7V"), WithinAbs(4.93e-3, 0.005e-3));
  CHECK_THAT(across("-0.7V"), WithinRel(-1e-14, 1e-9));
}

// [SedraSmith2015], example on the diode as regulator (3.7 of the fifth edition): three diodes from
// 10 V through 1 kohm, 0.7 V each, n = 2, VT = 25 mV. Printed: 7.9 mA, 6.3 ohm a diode, 37.3 mV
// peak to peak for +-10 % of supply, -39.9 mV for 2.1 mA of load (small-signal, the kilohm left
// out: 3 %).
TEST_CASE("Three diodes in a row hold 2.1 V to tens of millivolts", "[solve][published]") {
  const auto circuit = drawn(fmt::format(
      R"(
ambient {kelvin}K
hold V1 in gnd 10V
resistor R1 in a 1k
diode D1 anode=a cathode=gnd type=plain junctions=3
feed I1 0A from=a into=gnd compliance=none
type diode plain vf=0.7V vf_at=7.9mA ideality=2 measured_at={kelvin}K
)",
      fmt::arg("kelvin", kelvin_at_25_mv)));
  const Solved stage = solved(circuit);
  CHECK_THAT(stage("amps D1"), WithinRel(7.9e-3, 1e-9));
  CHECK_THAT(stage("volts a gnd"), WithinRel(2.1, 1e-9));

  const double string_ohm = 3.0 * 2.0 * 0.025 / 7.9e-3;  // 18.99 ohm.
  const double by_supply = slope(circuit, {"V1", 10.0, 1e-3, "V"}, "volts a gnd");
  CHECK_THAT(by_supply, WithinRel(string_ohm / (1000.0 + string_ohm), 1e-6));
  CHECK_THAT(2.0 * by_supply, WithinAbs(37.3e-3, 0.05e-3));
  const double by_load_ohm = slope(circuit, {"I1", 0.0, 1e-6, "A"}, "volts a gnd");
  CHECK_THAT(by_load_ohm * 2.1e-3, WithinRel(-39.9e-3, 0.03));
}

// [Boylestad2013], example 2.9: 10 V to -5 V through 4.7 kohm, a diode of 0.7 V and 2.2 kohm.
// Printed: 2.07 mA, -0.44 V (from the rounded current: -0.45 V exactly).
TEST_CASE("A diode between two supplies carries what is left after its own drop",
          "[solve][published]") {
  const Solved stage = solved(R"(
hold V1 in gnd 10V
hold V2 low gnd -5V
resistor R1 in a 4k7
diode D1 anode=a cathode=out type=plain
resistor R2 out low 2k2
type diode plain vf=0.7V vf_at=2.0725mA
)");
  CHECK_THAT(stage("amps D1"), WithinAbs(2.07e-3, 5e-6));
  CHECK_THAT(stage("volts out gnd"), WithinAbs(-0.44, 5e-3));
  CHECK_THAT(stage("amps D1"), WithinRel(14.3 / 6900.0, 1e-5));
}

// [Boylestad2013], example 2.13: 20 V, a diode, then a diode bridged by 3.3 kohm, then 5.6 kohm.
// Printed: 0.212, 3.32 and 3.11 mA.
TEST_CASE("A diode across a resistor takes the current that the resistor does not",
          "[solve][published]") {
  const Solved stage = solved(R"(
hold V1 in gnd 20V
diode D1 anode=in cathode=a type=first
resistor R1 a b 3k3
diode D2 anode=a cathode=b type=second
resistor R2 b gnd 5k6
type diode first vf=0.7V vf_at=3.3214mA
type diode second vf=0.7V vf_at=3.1093mA
)");
  CHECK_THAT(stage("amps R1"), WithinAbs(0.212e-3, 0.0005e-3));
  CHECK_THAT(stage("amps R2"), WithinAbs(3.32e-3, 0.005e-3));
  CHECK_THAT(stage("amps D2"), WithinAbs(3.11e-3, 0.005e-3));
}

}  // namespace idlepoint::tests
