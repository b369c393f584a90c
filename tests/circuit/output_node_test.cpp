// Oracle: where a bench hand would put the red lead to read the offset, stage by stage.
#include <catch2/catch.hpp>

#include "circuit/drawing.hpp"

namespace idlepoint::circuit {
namespace {

std::string output_of(const Drawing& drawing) {
  const auto node = output_node(drawing.circuit);
  return node ? drawing.circuit.at(*node).name : "none";
}

}  // namespace

TEST_CASE("The output is where the loudspeaker hangs", "[circuit][analytic]") {
  CHECK(output_of(complementary_stage()) == "out");
  CHECK(output_of(quasi_complementary_stage()) == "out");
  CHECK(output_of(compound_stage()) == "out");
}

TEST_CASE("Behind an output capacitor the output is before it", "[circuit][analytic]") {
  Drawing stage = capacitor_coupled_stage();
  CHECK(output_of(stage) == "mid");
  stage.part("resistor", "R20", {"spk", "gnd"}, 1e3);
  stage.part("capacitor", "C9", {"spk", "z"}, 4700e-6).part("resistor", "R21", {"z", "gnd"}, 10.0);
  CHECK(output_of(stage) == "mid");
}

TEST_CASE("Of two capacitors at the loudspeaker the larger is the output's",
          "[circuit][analytic]") {
  for (const double size_f : {1e-9, 0.01}) {
    Drawing stage = capacitor_coupled_stage();
    stage.part("capacitor", "C8", {"lo", "spk"}, size_f);
    CHECK(output_of(stage) == (size_f < 1e-6 ? "mid" : "lo"));
  }
}

TEST_CASE("A capacitor from a direct output back to a transistor moves nothing",
          "[circuit][analytic]") {
  Drawing stage = complementary_stage();
  stage.part("capacitor", "C6", {"out", "d_hi"}, 100e-6);
  CHECK(output_of(stage) == "out");
}

TEST_CASE("A bootstrap capacitor at a direct output is no output capacitor",
          "[circuit][analytic]") {
  Drawing stage = quasi_complementary_stage();
  CHECK(output_of(stage) == "out");
  stage.circuit.parts.back().leads = {stage.node("gnd"), stage.node("out")};
  CHECK(output_of(stage) == "out");
}

TEST_CASE("A loudspeaker behind an inductor or a relay's link hangs where it is drawn",
          "[circuit][analytic]") {
  Drawing stage = complementary_stage();
  stage.part("inductor", "L1", {"out", "spk"}, 2e-6);
  stage.circuit.at(stage.id("LS1")).leads[0] = stage.node("spk");
  CHECK(output_of(stage) == "spk");
}

TEST_CASE("What the file says goes first, and without a load there is no output",
          "[circuit][analytic]") {
  Drawing stage = complementary_stage();
  stage.circuit.signal.output = stage.node("e_hi");
  CHECK(output_of(stage) == "e_hi");
  CHECK(output_of(Drawing{}) == "none");
}

TEST_CASE("A fault does not move the output", "[circuit][identity]") {
  const Drawing stage = capacitor_coupled_stage();
  for (const Edit& edit : every_open_and_short(stage.circuit)) {
    const Circuit faulty = after(stage, {edit});
    CAPTURE(write_fault(stage.circuit, edit));
    CHECK(output_node(faulty) == output_node(stage.circuit));
  }
}

}  // namespace idlepoint::circuit
