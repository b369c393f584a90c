// Oracle: docs/language.md, "Faults": the texts of its table, letter by letter.
#include <catch2/catch.hpp>

#include "circuit/drawing.hpp"

namespace idlepoint::circuit {
namespace {

/// Parts by the names that the table uses.
Drawing table_of_faults() {
  Drawing drawing;
  drawing.rail("vpos", 28.0);
  drawing.part("resistor", "R12", {"a", "b"}, 0.22).part("trimmer", "VR2", {"a", "b", "b"}, 1e3);
  drawing.part("capacitor", "C3", {"a", "b"}, 1e-6).part("diode", "D2", {"a", "b"});
  drawing.part("npn", "Q5", {"vpos", "a", "b"}).part("hold", "V1", {"b", "gnd"}, 1.0);
  drawing.part("feed", "I1", {"vpos", "a"}, 5e-3).part("p-jfet", "J1", {"a", "b", "gnd"});
  drawing.type("npn", "power-npn");
  return drawing;
}

}  // namespace

TEST_CASE("A fault is written as the language has it", "[circuit][identity]") {
  Drawing drawing = table_of_faults();
  const Circuit& circuit = drawing.circuit;
  const PartId r12 = drawing.id("R12");
  const PartId vr2 = drawing.id("VR2");
  const PartId c3 = drawing.id("C3");
  const PartId d2 = drawing.id("D2");
  const PartId q5 = drawing.id("Q5");
  const std::vector<std::pair<Edit, std::string>> table = {
      {OpenPart{r12}, "R12 open"},
      {ShortPart{r12}, "R12 short"},
      {SetValue{r12, 2200.0}, "R12 is 2k2"},
      {LiftWiper{vr2}, "VR2 wiper open"},
      {OpenLead{vr2, 0}, "VR2 open a"},
      {OpenLead{vr2, 2}, "VR2 open b"},
      {SetTravel{vr2, 0.8}, "VR2 at 80%"},
      {Leak{c3, 0, 1, 100e3}, "C3 leaks 100k"},
      {ShortPart{c3}, "C3 short"},
      {SwapLeads{d2, 0, 1}, "D2 reversed"},
      {ShortLeads{q5, 0, 2}, "Q5 short c-e"},
      {ShortLeads{q5, 2, 0}, "Q5 short c-e"},
      {OpenLead{q5, 1}, "Q5 open b"},
      {SetGain{q5, 30.0}, "Q5 gain 30"},
      {Leak{q5, 2, 0, 10e3}, "Q5 leaks c-e 10k"},
      {SwapLeads{q5, 1, 0}, "Q5 swapped c-b"},
      {Loosen{q5}, "Q5 loose"},
      {Bridge{drawing.node("a"), drawing.node("b")}, "bridge a b"},
      {LoseRail{RailId{0}}, "rail vpos lost"},
      {SetType{q5, TypeId{0}}, "Q5=power-npn"},
      {ShortLeads{drawing.id("J1"), 2, 1}, "J1 short g-s"}};
  for (const auto& [edit, text] : table) CHECK(write_fault(circuit, edit) == text);
}

TEST_CASE("A value typed in full is written in full, a fitted one in three figures",
          "[circuit][identity]") {
  Drawing drawing = table_of_faults();
  const Circuit& circuit = drawing.circuit;
  const PartId r12 = drawing.id("R12");
  CHECK(write_fault(circuit, SetValue{r12, 0.33}) == "R12 is 0R33");
  CHECK(write_fault(circuit, SetValue{r12, 2215.0}) == "R12 is 2k215");
  CHECK(write_fault(circuit, SetValue{r12, 2214.837}) == "R12 is 2k21");
  CHECK(write_fault(circuit, SetTravel{drawing.id("VR2"), 0.3333}) == "VR2 at 33.33%");
  CHECK(write_fault(circuit, SetValue{drawing.id("V1"), -1.21}) == "V1 is -1.21V");
  CHECK(write_fault(circuit, SetValue{drawing.id("I1"), 4.7e-3}) == "I1 is 4.7mA");
}

}  // namespace idlepoint::circuit
