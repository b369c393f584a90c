// Oracle: between two leads on one point there is no voltage, by definition.
#include <catch2/catch.hpp>

#include "circuit/drawing.hpp"

namespace idlepoint::circuit {
namespace {

/// A point `x` at a steady voltage, and a way back for what is hung on it.
Drawing bench() {
  Drawing drawing;
  drawing.rail("vpos", 28.0);
  drawing.part("resistor", "R1", {"vpos", "x"}, 1e3).part("resistor", "R2", {"x", "y"}, 1e3);
  drawing.part("resistor", "R3", {"y", "gnd"}, 1e3);
  return drawing;
}

}  // namespace

TEST_CASE("A part with all its leads on one point is an error, whatever it is",
          "[circuit][analytic]") {
  for (const std::string kind :
       {"resistor", "capacitor", "link", "diode", "hold", "feed", "load"}) {
    Drawing drawing = bench();
    drawing.part(kind, "P", {"x", "x"}, kind == "capacitor" ? 1e-6 : 10.0);
    CAPTURE(kind);
    const auto complaint = only_complaint(drawing);
    CHECK(complaint.kind == complaints::kind("part-on-one-point"));
    CHECK(complaint.headline == "both ends of P are on `x`");
  }
  for (const std::string kind : {"npn", "pnp", "n-jfet", "p-mosfet", "trimmer"}) {
    Drawing drawing = bench();
    drawing.part(kind, "P", {"x", "x", "x"}, 100.0);
    CAPTURE(kind);
    CHECK(only_complaint(drawing).headline == "all legs of P are on `x`");
  }
}

TEST_CASE("A variable resistor with its two wired legs on one point is on one point",
          "[circuit][analytic]") {
  Drawing drawing = bench();
  drawing.part("trimmer", "VR1", {"x", "x", "-"}, 100.0);
  const auto complaint = only_complaint(drawing);
  CHECK(complaint.kind == complaints::kind("part-on-one-point"));
  CHECK(complaint.places.size() == 2);
}

TEST_CASE("Base and emitter, or gate and source, on one point are an error",
          "[circuit][analytic]") {
  for (const std::string kind : {"npn", "pnp"}) {
    Drawing drawing = bench();
    drawing.part(kind, "Q1", {"x", "y", "y"});
    const auto complaint = only_complaint(drawing);
    CHECK(complaint.kind == complaints::kind("base-on-emitter"));
    CHECK(complaint.headline == "base and emitter of Q1 are both on `y`");
    CHECK(complaint.places.front().column == 3);
  }
  for (const std::string kind : {"n-jfet", "p-jfet", "n-mosfet", "p-mosfet"}) {
    Drawing drawing = bench();
    drawing.part(kind, "M1", {"x", "y", "y"});
    CHECK(only_complaint(drawing).headline == "gate and source of M1 are both on `y`");
  }
}

TEST_CASE("A wiper tied to an end is how a variable resistor is wired", "[circuit][analytic]") {
  Drawing drawing = bench();
  drawing.part("trimmer", "VR1", {"x", "y", "y"}, 100.0);
  drawing.part("trimmer", "VR2", {"x", "x", "y"}, 100.0);
  CHECK(kinds_of(drawing).empty());
}

}  // namespace idlepoint::circuit
