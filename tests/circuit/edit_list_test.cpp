// Oracle: counting by hand: a two-terminal part can be open or short, a transistor open, short
// between three pairs of leads, or lifted at three.
#include <algorithm>
#include <catch2/catch.hpp>

#include "circuit/drawing.hpp"

namespace idlepoint::circuit {
namespace {

using Texts = std::vector<std::string>;

Texts faults_of(const Drawing& drawing) {
  Texts texts;
  for (const Edit& edit : every_open_and_short(drawing.circuit)) {
    texts.push_back(write_fault(drawing.circuit, edit));
  }
  return texts;
}

}  // namespace

TEST_CASE("Each kind of part can be open and short in its own ways", "[circuit][analytic]") {
  Drawing drawing;
  drawing.part("resistor", "R1", {"a", "b"}, 1.0).part("link", "L1", {"a", "b"});
  drawing.part("npn", "Q1", {"a", "b", "c"}).part("diode", "D1", {"a", "b"});
  drawing.part("hold", "V1", {"a", "b"}, 1.0).part("feed", "I1", {"a", "b"}, 1.0);
  drawing.part("load", "LS1", {"a", "b"}, 8.0).part("capacitor", "C1", {"a", "b"}, 1e-6);
  CHECK(faults_of(drawing) == Texts{"R1 open",
                                    "R1 short",
                                    "L1 open",
                                    "Q1 open",
                                    "Q1 short c-b",
                                    "Q1 short c-e",
                                    "Q1 short b-e",
                                    "Q1 open c",
                                    "Q1 open b",
                                    "Q1 open e",
                                    "D1 open",
                                    "D1 short",
                                    "C1 open",
                                    "C1 short"});
}

TEST_CASE("A trimmer can lose its wiper, an end, or the whole of it", "[circuit][analytic]") {
  Drawing three_legs;
  three_legs.part("trimmer", "VR1", {"a", "w", "b"}, 1e3);
  CHECK(faults_of(three_legs) == Texts{"VR1 open",
                                       "VR1 short a-wiper",
                                       "VR1 short a-b",
                                       "VR1 short wiper-b",
                                       "VR1 open a",
                                       "VR1 wiper open",
                                       "VR1 open b"});
  Drawing two_legs;
  two_legs.part("trimmer", "VR1", {"a", "w", "-"}, 1e3);
  CHECK(faults_of(two_legs) ==
        Texts{"VR1 open", "VR1 short a-wiper", "VR1 open a", "VR1 wiper open"});
}

TEST_CASE("A short between leads that the drawing joins is no fault", "[circuit][analytic]") {
  Drawing drawing;
  drawing.part("npn", "Q1", {"a", "a", "b"});
  const Texts faults = faults_of(drawing);
  CHECK(std::ranges::find(faults, "Q1 short c-b") == faults.end());
  CHECK(std::ranges::find(faults, "Q1 short c-e") != faults.end());
}

TEST_CASE("What is out of the circuit cannot fail again", "[circuit][analytic]") {
  const Drawing stage = complementary_stage();
  const Circuit without = after(stage, {OpenPart{stage.id("Q6")}});
  const auto all = every_open_and_short(stage.circuit);
  CHECK(every_open_and_short(without).size() == all.size() - 7);
}

TEST_CASE("Every listed fault fits", "[circuit][identity]") {
  for (const Drawing& stage : {complementary_stage(),
                               quasi_complementary_stage(),
                               capacitor_coupled_stage(),
                               compound_stage()}) {
    const CheckedCircuit sound = checked(stage);
    for (const Edit& edit : every_open_and_short(stage.circuit)) {
      CAPTURE(write_fault(stage.circuit, edit));
      CHECK(std::holds_alternative<CheckedCircuit>(circuit::apply(sound, edit)));
    }
  }
}

}  // namespace idlepoint::circuit
