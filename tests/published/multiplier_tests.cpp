// Oracle: textbook examples of the base-emitter multiplier: its volts, its trimmer, its incremental
// resistance [R2 + (R1 || rpi)] / [1 + gm (R1 || rpi)].
#include <cmath>

#include "published/solve_text.hpp"

namespace idlepoint::tests {

// [SedraSmith2015], problem 12.31: R1 = R2 = 1.2 kohm, 1 mA, gain 100, VT = 25 mV.
TEST_CASE("A multiplier of two 1.2 kohm resistors has an incremental resistance of 60 ohms",
          "[solve][published]") {
  const auto circuit = drawn(fmt::format(
      R"(
ambient {kelvin}K
rail vpos 10V resistance=0R
feed I1 1.51mA from=vpos into=top compliance=none
npn  Q1 c=top b=base e=gnd type=multiplier
resistor R2 top base 1k2
resistor R1 base gnd 1k2
type npn multiplier vbe=0.6V vbe_at=1.01mA gain=100 measured_at={kelvin}K
)",
      fmt::arg("kelvin", "290.11295303875204")));
  CHECK_THAT(solved(circuit)("amps Q1"), WithinRel(1e-3, 1e-9));
  CHECK_THAT(slope(circuit, {"I1", 1.51e-3, 1e-6, "A"}, "volts top gnd"), WithinRel(60.1455, 1e-5));
}

// [SedraSmith2015], the 741's bias (12.39 of the sixth edition). The book gives 1.118 V, IS and the
// gain; the resistors are computed from them.
TEST_CASE("Two trimmers of a multiplier find its volts and its transistor's share together",
          "[solve][published]") {
  const auto circuit = published("vbe-multiplier-1v118");
  const solve::Adjusted set = adjusted(circuit);
  const Solved at{set.circuit, set.state};
  CHECK_THAT(at("volts top gnd"), WithinRel(1.118, 1e-9));
  CHECK_THAT(at("volts base gnd"), WithinRel(0.573012, 2e-6));
  CHECK_THAT(track_ohm(set, 0), WithinRel(6366.8, 1e-5));
  CHECK_THAT(track_ohm(set, 1), WithinRel(6025.3, 1e-5));
  CHECK_THAT(slope(set.circuit, {"I1", 180.45e-6, 1e-7, "A"}, "volts top gnd"),
             WithinRel(544.31, 2e-5));
}

// [Bell2008], example 19.10: 3.2 V +- 0.5 V, R10 = 4.7 kohm, VBE 0.7 V at 5 mA. Printed: 0.638 mA
// and 1096.7 ohm at 3.7 V, 0.4255 mA and 1645 ohm at 2.7 V.
TEST_CASE("A multiplier's trimmer spans the printed ohms between base and emitter",
          "[solve][published]") {
  struct End {
    double spread_v;
    double divider_a;
    double base_to_emitter_ohm;
  };
  const End end = GENERATE(End{3.7, 0.638e-3, 1096.7}, End{2.7, 0.4255e-3, 1645.0});
  const auto circuit = drawn(fmt::format(
      R"(
rail vpos 10V resistance=0R
feed I1 {total}mA from=vpos into=top compliance=none
npn  Q10 c=top b=base e=gnd type=multiplier
resistor R10 top base 4k7
trimmer  R12 base gnd gnd 2k at=50% end_resistance=0R
reading  spread volts top gnd
adjust   R12 until spread reads {spread}V
type npn multiplier vbe=0.7V vbe_at=5mA gain=1e12
)",
      fmt::arg("total", 5.0 + (end.spread_v - 0.7) / 4.7),
      fmt::arg("spread", end.spread_v)));
  const solve::Adjusted set = adjusted(circuit);
  CHECK_THAT((Solved{set.circuit, set.state}("amps R10")), WithinRel(end.divider_a, 1e-3));
  CHECK_THAT(track_ohm(set, 0), WithinRel(end.base_to_emitter_ohm, 1e-4));
  CHECK_THAT(track_ohm(set, 0), WithinRel(0.7 / ((end.spread_v - 0.7) / 4700.0), 1e-8));
}

TEST_CASE("Less resistance from base to emitter is more bias", "[solve][published]") {
  const auto circuit = published("vbe-multiplier-trimmer");
  const double widest_v = solved(changed(circuit, "R12 at 0%"))("volts top gnd");
  const double narrowest_v = solved(changed(circuit, "R12 at 100%"))("volts top gnd");
  CHECK_THAT(widest_v, WithinRel(3.7, 5e-3));     // 1.1 kohm for the book's 1096.7 ohm.
  CHECK_THAT(narrowest_v, WithinRel(2.7, 5e-3));  // 1.1 kohm + 548 ohm for its 1645 ohm.
  CHECK(widest_v > narrowest_v);
}

TEST_CASE("The printed trimmer reaches the middle of its range near the middle of its travel",
          "[solve][published]") {
  const solve::Adjusted set = adjusted(published("vbe-multiplier-trimmer"));
  // 0.7 V over (3.2 V - 0.7 V) / 4.7 kohm is 1316 ohm, of which 1.1 kohm are fixed.
  CHECK_THAT(track_ohm(set, 0), WithinAbs(0.7 * 4700.0 / 2.5 - 1100.0, 5.0));
}

}  // namespace idlepoint::tests
