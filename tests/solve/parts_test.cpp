// Oracle: docs/models.md, "Passive parts" and "Diode", each kind of part against 1 kilohm by hand.
#include <cmath>

#include "board.hpp"

namespace idlepoint::solve {
namespace {

using circuit::Part;
using circuit::PartKind;

/// The resistance of one part, from the divider that it makes with 1 kilohm at 2 V.
struct Tester {
  Tester(PartKind kind, double value, circuit::PartDetails details) {
    board.rail("vp", 2.0).resistor("R1", "vp", "a", 1e3).resistor("X1", "a", "gnd", value);
    Part& part = board.circuit.parts.back();
    part.kind = kind;
    part.details = std::move(details);
  }

  [[nodiscard]] double ohm(const Conditions& conditions = {}) const {
    const Settled stage = settle(board, conditions);
    return stage.volts("a") / (2.0 - stage.volts("a")) * 1e3;
  }

  Board board;
};

}  // namespace

TEST_CASE("A resistor follows the ambient temperature by its coefficient", "[solve][analytic]") {
  Tester tester(PartKind::resistor, 470.0, circuit::ResistorDetails{.tempco_per_k = 4e-3});
  CHECK_THAT(tester.ohm(), WithinRel(470.0, 1e-8));
  tester.board.circuit.ambient_k = 318.15;
  CHECK_THAT(tester.ohm(), WithinRel(470.0 * 1.08, 1e-8));
}

TEST_CASE("A thermistor follows the ambient temperature by its beta law", "[solve][analytic]") {
  Tester tester(PartKind::thermistor, 470.0, circuit::ThermistorDetails{.beta_k = 3500.0});
  CHECK_THAT(tester.ohm(), WithinRel(470.0, 1e-8));
  tester.board.circuit.ambient_k = 323.15;
  const double expected = 470.0 * std::exp(3500.0 * (1.0 / 323.15 - 1.0 / 298.15));
  CHECK_THAT(tester.ohm(), WithinRel(expected, 1e-8));
}

TEST_CASE("A coil and a fuse are their resistances, and links without one", "[solve][analytic]") {
  const PartKind kind = GENERATE(PartKind::inductor, PartKind::fuse);
  CHECK_THAT(Tester(kind, 1.0, circuit::SeriesDetails{0.3}).ohm(), WithinRel(0.3, 1e-8));
  CHECK(Tester(kind, 1.0, circuit::SeriesDetails{0.0}).ohm() == 0.0);
}

TEST_CASE("A capacitor is open but for its leakage", "[solve][analytic]") {
  CHECK(Tester(PartKind::capacitor, 1e-6, circuit::CapacitorDetails{}).ohm() > 1e11);
  const circuit::CapacitorDetails leaky{.leakage_ohm = 22e3};
  CHECK_THAT(Tester(PartKind::capacitor, 1e-6, leaky).ohm(), WithinRel(22e3, 1e-6));
}

TEST_CASE("A loudspeaker counts only while it is in place", "[solve][analytic]") {
  const Tester tester(PartKind::load, 8.0, {});
  CHECK(tester.ohm() > 1e11);
  CHECK_THAT(tester.ohm({.load_connected = true}), WithinRel(8.0, 1e-8));
}

TEST_CASE("A lamp at its rated voltage takes its rated power", "[solve][analytic]") {
  Board board;
  board.rail("vp", 24.0).lamp("LA1", "vp", "gnd", 24.0, 3.0);
  // The cold end adds 0.225 * 0.003^2 to the resistance.
  CHECK_THAT(settle(board).watts("LA1"), WithinRel(3.0, 3e-6));
}

TEST_CASE("Several junctions in one body share the voltage of as many diodes in series",
          "[solve][identity]") {
  Board one;
  const auto type = one.diode_type(small_diode());
  one.rail("vp", 10.0).resistor("R1", "vp", "a", 1e3).diode("D1", "a", "gnd", type);
  std::get<circuit::DiodeDetails>(one.circuit.parts.back().details).junctions = 3;
  Board three;
  three.diode_type(small_diode());
  three.rail("vp", 10.0).resistor("R1", "vp", "a", 1e3).diode("D1", "a", "b", type);
  three.diode("D2", "b", "c", type).diode("D3", "c", "gnd", type);
  CHECK_THAT(settle(one).volts("a"), WithinAbs(settle(three).volts("a"), 1e-8));
}

TEST_CASE("A measured rail voltage takes the place of the nominal one", "[solve][analytic]") {
  Board board;
  board.rail("vp", 30.0).resistor("R1", "vp", "gnd", 1e3);
  board.circuit.rails[0].measured_v = 32.5;
  CHECK(settle(board).volts("vp") == 32.5);
  CHECK(settle(board, {.rails = 0.5}).volts("vp") == 16.25);
}

}  // namespace idlepoint::solve
