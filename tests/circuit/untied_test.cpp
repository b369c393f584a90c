// Oracle: Kirchhoff's current law by hand: through a point that one leg meets, or that only
// capacitors, bases and feeds reach, no steady current can be balanced.
#include <catch2/catch.hpp>

#include "circuit/drawing.hpp"

namespace idlepoint::circuit {
namespace {

using Kinds = std::vector<std::string>;

/// A sound divider to hang things on.
Drawing divider() {
  Drawing drawing;
  drawing.rail("vpos", 28.0);
  drawing.part("resistor", "R1", {"vpos", "drive"}, 1e3);
  drawing.part("resistor", "R2", {"drive", "gnd"}, 1e3);
  return drawing;
}

}  // namespace

TEST_CASE("A point that one leg meets is an error that offers the nearest name",
          "[circuit][analytic]") {
  Drawing drawing = divider();
  drawing.part("resistor", "R9", {"gnd", "drve"}, 2200.0);
  const auto complaint = only_complaint(drawing);
  CHECK(complaint.kind == complaints::kind("one-leg"));
  CHECK(complaint.headline == "only one leg meets `drve`");
  REQUIRE(complaint.places.size() == 2);
  CHECK(complaint.places[0].line == 4);
  CHECK(complaint.places[0].column == 3);
  CHECK(complaint.places[0].remark == "`drve` meets only this lead. Nearest known: `drive`");
  CHECK(complaint.places[1].remark == "`drive` meets 2 leads");
  CHECK(complaint.instead == "Write `drive` on line 4, or draw what else meets `drve`.");
}

TEST_CASE("Two letters exchanged are one slip, a case too", "[circuit][analytic]") {
  for (const std::string written : {"dirve", "Drive", "drives"}) {
    Drawing drawing = divider();
    drawing.part("resistor", "R9", {"gnd", written}, 2200.0);
    CHECK(only_complaint(drawing).instead.find("Write `drive`") == 0);
  }
}

TEST_CASE("Names that differ in figures alone are not taken for each other",
          "[circuit][analytic]") {
  Drawing drawing = divider();
  drawing.part("resistor", "R3", {"gnd", "e1"}, 1.0).part("resistor", "R4", {"e1", "drive"}, 1.0);
  drawing.part("resistor", "R5", {"gnd", "e2"}, 1.0);
  const auto complaint = only_complaint(drawing);
  CHECK(complaint.places.size() == 1);
  CHECK(complaint.instead ==
        "Draw what else meets `e2`; where a wire leaves the drawing there, add `socket e2`.");
}

TEST_CASE("A capacitor or a socket may stand alone on a point", "[circuit][analytic]") {
  Drawing drawing = divider();
  drawing.part("capacitor", "C1", {"input", "drive"}, 1e-6);
  drawing.part("resistor", "R3", {"drive", "elsewhere"}, 1e3).socket("elsewhere");
  CHECK(kinds_of(drawing).empty());
}

TEST_CASE("A rail counts as company for the leg that meets it", "[circuit][analytic]") {
  Drawing drawing = divider();
  drawing.rail("vaux", 5.0).part("resistor", "R3", {"vaux", "drive"}, 1e3);
  CHECK(kinds_of(drawing).empty());
}

TEST_CASE("The tied spare leg of a trimmer is no second leg on its wiper's point",
          "[circuit][analytic]") {
  Drawing drawing = divider();
  drawing.part("trimmer", "VR1", {"drive", "lost", "lost"}, 1e3);
  std::get<TrimmerDetails>(drawing.last().details).spare = SpareLeg::tied;
  CHECK(kinds_of(drawing) == Kinds{"one-leg"});
}

TEST_CASE("Two points that one leg meets each, with names alike, are one slip",
          "[circuit][analytic]") {
  Drawing drawing = divider();
  drawing.part("resistor", "R3", {"drive", "collector"}, 1e3);
  drawing.part("resistor", "R4", {"colector", "gnd"}, 1e3);
  const auto complaint = only_complaint(drawing);
  CHECK(complaint.kind == complaints::kind("one-leg"));
  CHECK(complaint.places.size() == 2);
}

TEST_CASE("A base that only a capacitor meets is called unfed", "[circuit][analytic]") {
  Drawing drawing = divider();
  drawing.part("npn", "Q4", {"vpos", "b", "drive"}).part("capacitor", "C1", {"in", "b"}, 1e-6);
  const auto complaint = only_complaint(drawing);
  CHECK(complaint.kind == complaints::kind("unfed-base"));
  CHECK(complaint.headline == "nothing feeds the base of Q4");
  CHECK(complaint.places.front().column == 3);
}

TEST_CASE("A base behind its stopper resistor is as unfed as without it", "[circuit][analytic]") {
  Drawing drawing = divider();
  drawing.part("n-mosfet", "M1", {"vpos", "g", "drive"});
  drawing.part("resistor", "R3", {"g", "in"}, 220.0);
  drawing.part("capacitor", "C1", {"in", "from_before"}, 1e-6);
  const auto complaint = only_complaint(drawing);
  CHECK(complaint.headline == "nothing feeds the gate of M1");
}

TEST_CASE("A base and the resistor meant for it, misspelt, make one complaint with both places",
          "[circuit][analytic]") {
  Drawing drawing;
  drawing.rail("vpos", 28.0);
  drawing.part("resistor", "R9", {"vpos", "drve"}, 2200.0);
  drawing.part("npn", "Q4", {"vpos", "drive", "out"}).part("resistor", "R1", {"out", "gnd"}, 8.2);
  const auto complaint = only_complaint(drawing);
  CHECK(complaint.kind == complaints::kind("unfed-base"));
  REQUIRE(complaint.places.size() == 2);
  CHECK(complaint.places[0].remark == "`drive` meets only this lead");
  CHECK(complaint.places[1].remark == "`drve` meets only this lead. Nearest known: `drive`");
  CHECK(complaint.instead == "Write `drive` on line 2, or join `drive` to the circuit.");
}

TEST_CASE("Where two bases bear a name, the lone leg beside it is what has to be mended",
          "[circuit][analytic]") {
  Drawing drawing;
  drawing.rail("vpos", 28.0);
  drawing.part("npn", "Q4", {"vpos", "drive", "out"}).part("npn", "Q5", {"vpos", "drive", "out"});
  drawing.part("resistor", "R1", {"out", "gnd"}, 8.2);
  drawing.part("resistor", "R9", {"vpos", "drve"}, 2200.0);
  const auto complaint = only_complaint(drawing);
  CHECK(complaint.headline == "nothing feeds the base of Q4 and the base of Q5");
  CHECK(complaint.places.front().line == 5);
}

TEST_CASE("A feed into a base alone sets no voltage", "[circuit][analytic]") {
  Drawing drawing = divider();
  drawing.part("feed", "I1", {"vpos", "b_hi"}, 5e-3).part("npn", "Q4", {"vpos", "b_hi", "drive"});
  const auto complaint = only_complaint(drawing);
  CHECK(complaint.kind == complaints::kind("untied-point"));
  CHECK(complaint.headline == "nothing sets the voltage of `b_hi`");
}

TEST_CASE("A feed into a capacitor alone charges it without end", "[circuit][analytic]") {
  Drawing drawing = divider();
  drawing.part("feed", "I1", {"vpos", "top"}, 5e-3).part("capacitor", "C1", {"top", "gnd"}, 1e-6);
  CHECK(only_complaint(drawing).kind == complaints::kind("untied-point"));
}

TEST_CASE("An island joined to nothing is named once, with its points", "[circuit][analytic]") {
  Drawing drawing = divider();
  drawing.part("resistor", "R3", {"p", "q"}, 1e3).part("diode", "D1", {"q", "r"});
  drawing.part("resistor", "R4", {"r", "p"}, 1e3);
  const auto complaint = only_complaint(drawing);
  CHECK(complaint.headline == "nothing sets the voltage of `p`, `q` and `r`");
  CHECK(complaint.places.size() == 3);
}

TEST_CASE("An island that only capacitors reach is held by the board", "[circuit][analytic]") {
  Drawing drawing = divider();
  drawing.part("capacitor", "C1", {"drive", "p"}, 1e-6).part("resistor", "R3", {"p", "q"}, 1e3);
  drawing.part("capacitor", "C2", {"q", "gnd"}, 1e-6);
  CHECK(kinds_of(drawing).empty());
}

TEST_CASE("The leg that cuts an island off is told, not the island", "[circuit][analytic]") {
  Drawing drawing = divider();
  drawing.part("resistor", "R7", {"vpso", "b"}, 1e3).part("npn", "Q3", {"vpos", "b", "drive"});
  const auto complaint = only_complaint(drawing);
  CHECK(complaint.headline == "only one leg meets `vpso`");
  CHECK(complaint.instead.find("Write `vpos`") == 0);
}

TEST_CASE("A point without a name is called by the parts that meet there", "[circuit][analytic]") {
  Drawing drawing = divider();
  drawing.part("diode", "D1", {"D1.anode", "D1.cathode"});
  drawing.part("diode", "D2", {"D1.cathode", "D1.anode"});
  const auto complaint = only_complaint(drawing);
  CHECK(complaint.headline == "nothing sets the voltage of the joint of D1 and D2");
}

}  // namespace idlepoint::circuit
