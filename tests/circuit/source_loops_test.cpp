// Oracle: Kirchhoff's voltage law by hand: round a loop without resistance no current is decided.
#include <catch2/catch.hpp>

#include "circuit/drawing.hpp"

namespace idlepoint::circuit {
namespace {

using Kinds = std::vector<std::string>;

Drawing two_rails(double resistance_ohm) {
  Drawing drawing;
  drawing.rail("vpos", 28.0, resistance_ohm).rail("vneg", -28.0, resistance_ohm);
  drawing.part("resistor", "R1", {"vpos", "x"}, 1e3).part("resistor", "R2", {"x", "vneg"}, 1e3);
  return drawing;
}

}  // namespace

TEST_CASE("Rails joined through wires are an error that names the way", "[circuit][analytic]") {
  Drawing drawing = two_rails(0.05);
  drawing.part("link", "L1", {"vpos", "mid"}).part("resistor", "R0", {"mid", "vneg"}, 0.0);
  drawing.part("link", "L2", {"x", "gnd"});
  const auto complaint = only_complaint(drawing);
  CHECK(complaint.kind == complaints::kind("rails-joined"));
  CHECK(complaint.headline == "`vpos` and `vneg` are joined through L1 and R0");
  REQUIRE(complaint.places.size() == 4);
  CHECK(complaint.places[0].line == 5);
  CHECK(complaint.places[3].line == 2);
}

TEST_CASE("A rail joined to ground is an error", "[circuit][analytic]") {
  Drawing drawing = two_rails(0.05);
  drawing.part("inductor", "L1", {"vpos", "gnd"}, 1e-3);
  CHECK(only_complaint(drawing).headline == "`gnd` and `vpos` are joined through L1");
}

TEST_CASE("What has resistance joins no rails", "[circuit][analytic]") {
  Drawing drawing = two_rails(0.05);
  drawing.part("fuse", "F1", {"vpos", "vneg"}, 2.0).part("resistor", "R3", {"vpos", "gnd"}, 0.1);
  drawing.part("hold", "V1", {"x", "gnd"}, 1.0);
  CHECK(kinds_of(drawing).empty());
}

TEST_CASE("Two holds across the same points form a loop", "[circuit][analytic]") {
  Drawing drawing = two_rails(0.05);
  drawing.part("hold", "V1", {"x", "gnd"}, 1.0).part("hold", "V2", {"gnd", "x"}, -1.0);
  const auto complaint = only_complaint(drawing);
  CHECK(complaint.kind == complaints::kind("source-loop"));
  CHECK(complaint.headline == "V1 and V2 form a loop without resistance");
}

TEST_CASE("A hold closed through wires and ideal rails is a loop with all of them named",
          "[circuit][analytic]") {
  Drawing drawing = two_rails(0.0);
  drawing.part("link", "L1", {"vpos", "y"}).part("hold", "V1", {"y", "vneg"}, 56.0);
  CHECK(only_complaint(drawing).headline ==
        "L1, the rail `vpos`, the rail `vneg` and V1 form a loop without resistance");
}

TEST_CASE("A hold between rails that have resistance is no loop", "[circuit][analytic]") {
  Drawing drawing = two_rails(0.05);
  drawing.part("hold", "V1", {"vpos", "vneg"}, 56.0);
  CHECK(kinds_of(drawing).empty());
}

TEST_CASE("Wires in parallel are no loop of sources", "[circuit][analytic]") {
  Drawing drawing = two_rails(0.05);
  drawing.part("link", "L1", {"x", "gnd"}).part("link", "L2", {"x", "gnd"});
  CHECK(kinds_of(drawing).empty());
}

TEST_CASE("Ideal rails joined by a wire are told once, as rails joined", "[circuit][analytic]") {
  Drawing drawing = two_rails(0.0);
  drawing.part("link", "L1", {"vpos", "vneg"});
  CHECK(kinds_of(drawing) == Kinds{"rails-joined"});
}

}  // namespace idlepoint::circuit
