// Oracle: docs/models.md and docs/language.md on what counts as a part's current and heat, worked
// out by hand where a fault leaves a circuit of resistors.
#include "board.hpp"

namespace idlepoint::solve {
namespace {

using circuit::PartKind;
using circuit::TrimmerDetails;

/// A transistor that is off: base on its emitter, 1 kilohm to 10 V at its collector.
Board idle_transistor() {
  Board board;
  const auto type = board.bipolar_type(PartKind::npn, plain_transistor());
  board.rail("vp", 10.0).resistor("R1", "vp", "c", 1e3).resistor("RE", "e", "gnd", 250.0);
  board.resistor("RB", "b", "e", 100.0).transistor("Q1", "c", "b", "e", type);
  return board;
}

}  // namespace

TEST_CASE("A short inside a transistor carries its terminal currents", "[solve][analytic]") {
  const Board board = idle_transistor();
  const auto q1 = board.part("Q1");
  const Settled stage = settle(edited(board, {circuit::ShortLeads{q1, 0, 2}}));
  CHECK_THAT(stage.lead_a("Q1", 0), WithinAbs(8e-3, 1e-9));
  CHECK_THAT(stage.lead_a("Q1", 2), WithinAbs(-8e-3, 1e-9));
  CHECK_THAT(stage.amps("Q1"), WithinAbs(8e-3, 1e-9));
  CHECK_THAT(stage.volts("c"), WithinAbs(2.0, 1e-6));
  CHECK_THAT(stage.watts("Q1"), WithinAbs(0.0, 1e-9));
}

TEST_CASE("Two shorts inside a transistor join its three leads", "[solve][analytic]") {
  const Board board = idle_transistor();
  const auto q1 = board.part("Q1");
  const Settled stage =
      settle(edited(board, {circuit::ShortLeads{q1, 0, 1}, circuit::ShortLeads{q1, 1, 2}}));
  CHECK_THAT(stage.volts("b"), WithinAbs(2.0, 1e-9));
  CHECK_THAT(stage.lead_a("Q1", 0), WithinAbs(8e-3, 1e-9));
  CHECK_THAT(stage.lead_a("Q1", 1), WithinAbs(0.0, 1e-9));
  CHECK_THAT(stage.lead_a("Q1", 2), WithinAbs(-8e-3, 1e-9));
}

TEST_CASE("A leak inside a transistor counts as its current and its heat", "[solve][analytic]") {
  const Board board = idle_transistor();
  const Settled stage = settle(edited(board, {circuit::Leak{board.part("Q1"), 0, 2, 1250.0}}));
  // 10 V over 2.5 kilohm: 4 mA, and 1 V at the emitter, base with it.
  CHECK_THAT(stage.amps("Q1"), WithinAbs(4e-3, 1e-9));
  CHECK_THAT(stage.watts("Q1"), WithinRel(4e-3 * 4e-3 * 1250.0, 1e-6));
  CHECK_THAT(stage.volts("e"), WithinAbs(1.0, 1e-6));
}

TEST_CASE("A diode's leak counts as the diode's current", "[solve][analytic]") {
  Board board;
  devices::DiodeData ideal = small_diode();
  ideal.saturation_current_a = 1e-15;
  const auto type = board.diode_type(ideal);
  board.rail("vp", 10.0).resistor("R1", "vp", "a", 1e3).diode("D1", "gnd", "a", type);
  const Settled stage = settle(edited(board, {circuit::Leak{board.part("D1"), 0, 1, 1e3}}));
  CHECK_THAT(stage.amps("D1"), WithinAbs(-5e-3, 1e-9));
  CHECK_THAT(stage.watts("D1"), WithinRel(25e-3, 1e-8));
}

TEST_CASE("A shorted capacitor is a link", "[solve][analytic]") {
  Board board;
  board.rail("vp", 10.0).resistor("R1", "vp", "a", 1e3).capacitor("C1", "a", "b");
  board.resistor("R2", "b", "gnd", 4e3);
  CHECK(settle(board).amps("C1") == 0.0);
  const Settled stage = settle(edited(board, {circuit::ShortPart{board.part("C1")}}));
  CHECK_THAT(stage.amps("C1"), WithinAbs(2e-3, 1e-9));
  CHECK_THAT(stage.volts("b"), WithinAbs(stage.volts("a"), 0.0));
  CHECK_THAT(stage.watts("C1"), WithinAbs(0.0, 1e-15));
}

TEST_CASE("An open part carries nothing on any lead", "[solve][analytic]") {
  const Board board = idle_transistor();
  const Settled stage = settle(edited(board, {circuit::OpenPart{board.part("Q1")}}));
  for (std::size_t lead = 0; lead < 3; ++lead) CHECK(stage.lead_a("Q1", lead) == 0.0);
  CHECK(stage.watts("Q1") == 0.0);
  CHECK_THAT(stage.volts("c"), WithinRel(10.0, 1e-8));
}

namespace {

/// 12 V, a trimmer of 10 kilohm with 100 ohm ends and 50 ohm wiper, 1 kilohm below.
Board tracked(const char* third, circuit::SpareLeg spare) {
  Board board;
  TrimmerDetails track;
  track.end_resistance_ohm = 100.0;
  track.wiper_resistance_ohm = 50.0;
  track.travel = 0.25;
  track.spare = spare;
  board.rail("vp", 12.0).trimmer("VR1", "vp", "w", third, 10e3, track);
  board.resistor("R1", "w", "gnd", 1e3);
  return board;
}

Settled with_lifted_wiper(const Board& board) {
  return settle(edited(board, {circuit::LiftWiper{board.part("VR1")}}));
}

}  // namespace

TEST_CASE("A lifted wiper leaves a tied track whole", "[solve][analytic]") {
  const Board board = tracked("w", circuit::SpareLeg::tied);
  // Sound: the upper stretch, then the wiper's 50 ohm beside the lower stretch.
  const double upper_ohm = 2600.0 + 50.0 * 7600.0 / 7650.0;
  CHECK_THAT(settle(board).volts("w"), WithinRel(12e3 / (1e3 + upper_ohm), 1e-8));
  // Lifted: all the track and both ends.
  CHECK_THAT(with_lifted_wiper(board).volts("w"), WithinRel(12e3 / (1e3 + 10200.0), 1e-8));
}

TEST_CASE("A lifted wiper opens a track whose third leg is free", "[solve][analytic]") {
  const Board board = tracked("-", circuit::SpareLeg::free);
  CHECK_THAT(settle(board).volts("w"), WithinRel(12e3 / (1e3 + 2650.0), 1e-8));
  const Settled lifted = with_lifted_wiper(board);
  CHECK_THAT(lifted.volts("w"), WithinAbs(0.0, 1e-9));
  CHECK_THAT(lifted.lead_a("VR1", 0), WithinAbs(0.0, 1e-12));
}

TEST_CASE("A lifted wiper leaves the track of a three-leg trimmer between its ends",
          "[solve][analytic]") {
  const Board board = tracked("gnd", circuit::SpareLeg::none);
  const Settled lifted = with_lifted_wiper(board);
  CHECK_THAT(lifted.lead_a("VR1", 0), WithinRel(12.0 / 10200.0, 1e-9));
  CHECK_THAT(lifted.lead_a("VR1", 2), WithinRel(-12.0 / 10200.0, 1e-9));
  CHECK(lifted.lead_a("VR1", 1) == 0.0);
  CHECK_THAT(lifted.volts("w"), WithinAbs(0.0, 1e-12));
}

TEST_CASE("A lifted end of a track takes its stretch with it", "[solve][analytic]") {
  const Board board = tracked("gnd", circuit::SpareLeg::none);
  const Settled stage = settle(edited(board, {circuit::OpenLead{board.part("VR1"), 2}}));
  CHECK_THAT(stage.volts("w"), WithinRel(12e3 / (1e3 + 2650.0), 1e-8));
  // The lifted leg follows the wiper's point on the track; its insulation draws picoamperes.
  const double track_v = stage.volts("w") * 1050.0 / 1e3;
  CHECK_THAT(stage.volts("VR1.b (lifted)"), WithinRel(track_v, 1e-6));
}

TEST_CASE("A lifted base hangs on its junctions and the board's insulation", "[solve][analytic]") {
  const Board board = idle_transistor();
  const Settled stage = settle(edited(board, {circuit::OpenLead{board.part("Q1"), 1}}));
  // Reverse collector leakage alone: nanoamperes at most, so the collector stands at the rail.
  CHECK_THAT(stage.volts("c"), WithinAbs(10.0, 1e-4));
  CHECK(std::abs(stage.lead_a("Q1", 1)) < 1e-11);
}

}  // namespace idlepoint::solve
