// Oracle: for every kind of edit, the circuit drawn the way the fault leaves it.
#include "sample_boards.hpp"

namespace idlepoint::solve {
namespace {

using circuit::Edit;
using circuit::PartKind;

/// One transistor amplifier with a diode, a trimmer in its base divider and a second rail.
struct Amplifier {
  devices::BipolarData data = small_transistor();
  devices::BipolarData other_data = plain_transistor();
  const char* collector = "c";
  const char* base = "b";
  const char* emitter = "e";
  const char* anode = "e";
  const char* cathode = "f";
  const char* track_a = "vp";
  const char* track_b = "lo";
  double r1_ohm = 2.2e3;
  bool has_r1 = true;
  bool has_diode = true;
  bool has_transistor = true;
  bool has_second_rail = true;
  bool is_other_type = false;
  double travel = 0.7;

  [[nodiscard]] Board board() const {
    Board board;
    const auto type = board.bipolar_type(PartKind::npn, data);
    const auto other = board.bipolar_type(PartKind::npn, other_data);
    const auto diode = board.diode_type(small_diode());
    board.rail("vp", 15.0, 0.1);
    if (has_second_rail) board.rail("vn", -5.0, 0.1);
    circuit::TrimmerDetails track;
    track.travel = travel;
    track.wiper_resistance_ohm = 5.0;
    board.trimmer("VR1", track_a, "w", track_b, 22e3, track);
    board.resistor("R2", "lo", "gnd", 4.7e3).resistor("R3", "w", "b", 1e3);
    if (has_r1) board.resistor("R1", "vp", "c", r1_ohm);
    if (has_diode) board.diode("D1", anode, cathode, diode);
    board.resistor("R4", "f", "gnd", 470.0).resistor("R5", "c", "gnd", 100e3);
    board.resistor("R6", "vn", "e", 33e3).capacitor("C1", "e", "gnd");
    if (has_transistor) {
      board.transistor("Q1", collector, base, emitter, is_other_type ? other : type);
    }
    return board;
  }
};

/// Nodes of both circuits, by name, stand alike.
void check_alike(const Board& sound, const std::vector<Edit>& edits, const Board& drawn) {
  const Settled faulty = settle(edited(sound, edits));
  const Settled expected = settle(drawn);
  for (const circuit::Node& node : sound.circuit.nodes) {
    if (!circuit::find_node(drawn.circuit, node.name)) continue;
    CAPTURE(circuit::write_fault(sound.circuit, edits.back()), node.name);
    CHECK_THAT(faulty.volts(node.name), WithinAbs(expected.volts(node.name), 1e-9));
  }
}

}  // namespace

TEST_CASE("Opened and taken-out parts are parts that are not drawn", "[solve][identity]") {
  const Board sound = Amplifier{}.board();
  check_alike(sound, {circuit::OpenPart{sound.part("R1")}}, Amplifier{.has_r1 = false}.board());
  check_alike(sound, {circuit::OpenPart{sound.part("D1")}}, Amplifier{.has_diode = false}.board());
  check_alike(
      sound, {circuit::OpenPart{sound.part("Q1")}}, Amplifier{.has_transistor = false}.board());
}

TEST_CASE("A lost rail is a rail that is not drawn", "[solve][identity]") {
  const Board sound = Amplifier{}.board();
  const Amplifier without{.has_second_rail = false};
  check_alike(sound, {circuit::LoseRail{circuit::RailId{1}}}, without.board());
}

TEST_CASE("A lifted lead is drawn to a node of its own", "[solve][identity]") {
  const Board sound = Amplifier{}.board();
  const auto q1 = sound.part("Q1");
  check_alike(sound, {circuit::OpenLead{q1, 0}}, Amplifier{.collector = "lifted"}.board());
  check_alike(sound, {circuit::OpenLead{q1, 1}}, Amplifier{.base = "lifted"}.board());
  check_alike(sound, {circuit::OpenLead{q1, 2}}, Amplifier{.emitter = "lifted"}.board());
  const auto vr1 = sound.part("VR1");
  check_alike(sound, {circuit::OpenLead{vr1, 0}}, Amplifier{.track_a = "lifted"}.board());
  check_alike(sound, {circuit::OpenLead{vr1, 2}}, Amplifier{.track_b = "lifted"}.board());
}

TEST_CASE("Shorts and bridges are links in the drawing", "[solve][identity]") {
  const Board sound = Amplifier{}.board();
  const auto q1 = sound.part("Q1");
  const auto check = [&](const Edit& edit, const char* a, const char* b) {
    Board drawn = sound;
    drawn.link("L1", a, b);
    check_alike(sound, {edit}, drawn);
  };
  check(circuit::ShortPart{sound.part("R1")}, "vp", "c");
  check(circuit::ShortPart{sound.part("D1")}, "e", "f");
  check(circuit::ShortPart{sound.part("C1")}, "e", "gnd");
  check(circuit::ShortLeads{q1, 0, 2}, "c", "e");
  check(circuit::ShortLeads{q1, 1, 2}, "b", "e");
  check(circuit::ShortLeads{q1, 0, 1}, "c", "b");
  Board copy = sound;
  check(circuit::Bridge{copy.node("w"), copy.node("f")}, "w", "f");
}

TEST_CASE("Leaks are resistors in the drawing", "[solve][identity]") {
  const Board sound = Amplifier{}.board();
  const auto check = [&](const Edit& edit, const char* a, const char* b, double ohm) {
    Board drawn = sound;
    drawn.resistor("RX", a, b, ohm);
    check_alike(sound, {edit}, drawn);
  };
  check(circuit::Leak{sound.part("Q1"), 0, 2, 10e3}, "c", "e", 10e3);
  check(circuit::Leak{sound.part("Q1"), 0, 1, 100e3}, "c", "b", 100e3);
  check(circuit::Leak{sound.part("D1"), 0, 1, 50.0}, "e", "f", 50.0);
  check(circuit::Leak{sound.part("C1"), 0, 1, 3.3e3}, "e", "gnd", 3.3e3);
}

TEST_CASE("Changed values, travels, gains and types are drawn so", "[solve][identity]") {
  const Board sound = Amplifier{}.board();
  const auto q1 = sound.part("Q1");
  check_alike(
      sound, {circuit::SetValue{sound.part("R1"), 4.7e3}}, Amplifier{.r1_ohm = 4.7e3}.board());
  check_alike(
      sound, {circuit::SetTravel{sound.part("VR1"), 0.1}}, Amplifier{.travel = 0.1}.board());
  Amplifier weak;
  weak.data.gain = 12.0;
  check_alike(sound, {circuit::SetGain{q1, 12.0}}, weak.board());
  check_alike(
      sound, {circuit::SetType{q1, circuit::TypeId{1}}}, Amplifier{.is_other_type = true}.board());
}

TEST_CASE("Exchanged leads are drawn exchanged", "[solve][identity]") {
  const Board sound = Amplifier{}.board();
  const auto q1 = sound.part("Q1");
  check_alike(
      sound, {circuit::SwapLeads{q1, 0, 1}}, Amplifier{.collector = "b", .base = "c"}.board());
  check_alike(
      sound, {circuit::SwapLeads{q1, 0, 2}}, Amplifier{.collector = "e", .emitter = "c"}.board());
  check_alike(sound,
              {circuit::SwapLeads{sound.part("D1"), 0, 1}},
              Amplifier{.anode = "f", .cathode = "e"}.board());
}

TEST_CASE("Several faults in order are one drawing", "[solve][identity]") {
  const Board sound = Amplifier{}.board();
  Board drawn = Amplifier{.has_diode = false, .travel = 0.2}.board();
  drawn.link("L1", "e", "f");
  check_alike(sound,
              {circuit::OpenPart{sound.part("D1")},
               circuit::SetTravel{sound.part("VR1"), 0.2},
               circuit::Bridge{drawn.node("e"), drawn.node("f")}},
              drawn);
}

}  // namespace idlepoint::solve
