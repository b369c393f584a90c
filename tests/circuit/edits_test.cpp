// Oracle: docs/language.md, "Faults", one sentence a case: what each edit does to the drawing, and
// which kinds it does not fit.
#include <catch2/catch.hpp>
#include <limits>

#include "circuit/drawing.hpp"

namespace idlepoint::circuit {
namespace {

struct Stage {
  Drawing drawing = complementary_stage();
  PartId transistor = drawing.id("Q6");
  PartId diode = drawing.id("D1");
  PartId resistor = drawing.id("R10");
  PartId trimmer = drawing.id("VR2");
  PartId capacitor = drawing.id("C5");
  PartId feed = drawing.id("I1");
  PartId hold = drawing.id("V1");

  [[nodiscard]] Part before(PartId id) const { return drawing.circuit.at(id); }
  [[nodiscard]] Part edited(PartId id, const Edit& edit) const {
    return after(drawing, {edit}).at(id);
  }
};

}  // namespace

TEST_CASE("An opened part keeps its place in the list and loses every lead's current",
          "[circuit][identity]") {
  const Stage stage;
  const Circuit faulty = after(stage.drawing, {OpenPart{stage.transistor}});
  CHECK(faulty.at(stage.transistor).damage.absent);
  CHECK(faulty.parts.size() == stage.drawing.circuit.parts.size());
  CHECK(faulty.nodes.size() == stage.drawing.circuit.nodes.size());
}

TEST_CASE("A shorted two-terminal part is a link, a transistor keeps its junctions",
          "[circuit][identity]") {
  const Stage stage;
  CHECK(stage.edited(stage.resistor, ShortPart{stage.resistor}).damage.is_link);
  CHECK(stage.edited(stage.diode, ShortPart{stage.diode}).damage.is_link);
  CHECK(stage.edited(stage.diode, ShortLeads{stage.diode, 0, 1}).damage.is_link);
  const Part shorted = stage.edited(stage.transistor, ShortLeads{stage.transistor, 0, 2});
  CHECK_FALSE(shorted.damage.is_link);
  REQUIRE(shorted.damage.shorts.size() == 1);
  CHECK(shorted.damage.shorts[0].lead_1 == 0);
  CHECK(shorted.damage.shorts[0].lead_2 == 2);
  CHECK(shorted.leads == stage.before(stage.transistor).leads);
}

TEST_CASE("A lifted lead gets a node of its own and the rest stays", "[circuit][identity]") {
  const Stage stage;
  const Circuit faulty = after(stage.drawing, {OpenLead{stage.transistor, 1}});
  const std::size_t nodes = stage.drawing.circuit.nodes.size();
  REQUIRE(faulty.nodes.size() == nodes + 1);
  CHECK(faulty.nodes.back().lifted);
  CHECK(faulty.nodes.back().name == "Q6.b (lifted)");
  CHECK(faulty.at(stage.transistor).leads[1] == NodeId{nodes});
  CHECK(faulty.at(stage.transistor).leads[0] == stage.before(stage.transistor).leads[0]);
  CHECK(faulty.at(stage.transistor).leads[2] == stage.before(stage.transistor).leads[2]);
}

TEST_CASE("A trimmer's end can be lifted, its wiper parted from the track", "[circuit][identity]") {
  const Stage stage;
  const Circuit faulty =
      after(stage.drawing, {OpenLead{stage.trimmer, 0}, LiftWiper{stage.trimmer}});
  CHECK(faulty.nodes.back().name == "VR2.a (lifted)");
  CHECK(faulty.at(stage.trimmer).damage.wiper_open);
  CHECK(faulty.at(stage.trimmer).leads[1] == stage.before(stage.trimmer).leads[1]);
}

TEST_CASE("Travel, value and gain take the new number", "[circuit][identity]") {
  const Stage stage;
  const Part turned = stage.edited(stage.trimmer, SetTravel{stage.trimmer, 0.8});
  CHECK(std::get<TrimmerDetails>(turned.details).travel == 0.8);
  CHECK(stage.edited(stage.resistor, SetValue{stage.resistor, 2200.0}).value == 2200.0);
  CHECK(stage.edited(stage.hold, SetValue{stage.hold, -1.3}).value == -1.3);
  CHECK(stage.edited(stage.feed, SetValue{stage.feed, 0.0}).value == 0.0);
  CHECK(stage.edited(stage.transistor, SetGain{stage.transistor, 30.0}).damage.gain == 30.0);
}

TEST_CASE("A capacitor's leak is its leakage, any other part's lies inside it",
          "[circuit][identity]") {
  const Stage stage;
  const Part capacitor = stage.edited(stage.capacitor, Leak{stage.capacitor, 0, 1, 100e3});
  CHECK(std::get<CapacitorDetails>(capacitor.details).leakage_ohm == 100e3);
  CHECK(capacitor.damage.leaks.empty());
  const Part transistor = stage.edited(stage.transistor, Leak{stage.transistor, 0, 2, 10e3});
  REQUIRE(transistor.damage.leaks.size() == 1);
  CHECK(transistor.damage.leaks[0].lead_1 == 0);
  CHECK(transistor.damage.leaks[0].lead_2 == 2);
  CHECK(transistor.damage.leaks[0].ohm == 10e3);
}

TEST_CASE("Exchanging leads twice is no change", "[circuit][identity]") {
  const Stage stage;
  const SwapLeads swap{stage.transistor, 0, 1};
  const Part once = stage.edited(stage.transistor, swap);
  CHECK(once.leads[0] == stage.before(stage.transistor).leads[1]);
  CHECK(once.leads[1] == stage.before(stage.transistor).leads[0]);
  const Circuit twice = after(stage.drawing, {swap, swap});
  CHECK(twice.at(stage.transistor).leads == stage.before(stage.transistor).leads);
  const Part reversed = stage.edited(stage.diode, SwapLeads{stage.diode, 0, 1});
  CHECK(reversed.leads[0] == stage.before(stage.diode).leads[1]);
}

TEST_CASE("A part comes loose from its heat sink only where it has one", "[circuit][identity]") {
  Stage stage;
  CHECK(refusal(stage.drawing, Loosen{stage.transistor}) == "Q6 sits on no heat sink");
  stage.drawing.heatsink("HS1");
  stage.drawing.circuit.at(stage.transistor).mounting.heatsink = HeatsinkId{0};
  CHECK(stage.edited(stage.transistor, Loosen{stage.transistor}).damage.loose);
}

TEST_CASE("A bridge is a link more, and a lost rail keeps its node", "[circuit][identity]") {
  const Stage stage;
  const NodeId a = *find_node(stage.drawing.circuit, "e_hi");
  const Circuit bridged = after(stage.drawing, {Bridge{a, ground}});
  REQUIRE(bridged.parts.size() == stage.drawing.circuit.parts.size() + 1);
  CHECK(bridged.parts.back().name == "bridge e_hi gnd");
  CHECK(bridged.parts.back().kind == PartKind::link);
  CHECK(bridged.parts.back().leads == std::vector<std::optional<NodeId>>{a, ground});
  const Circuit lost = after(stage.drawing, {LoseRail{RailId{1}}});
  CHECK(lost.rails[1].lost);
  CHECK_FALSE(lost.rails[0].lost);
}

TEST_CASE("Another type goes in only where the kind is the same", "[circuit][identity]") {
  Stage stage;
  stage.drawing.type("npn", "power-npn");
  stage.drawing.type("pnp", "power-pnp");
  CHECK(stage.edited(stage.transistor, SetType{stage.transistor, TypeId{0}}).type == TypeId{0});
  CHECK(refusal(stage.drawing, SetType{stage.transistor, TypeId{1}}) ==
        "Q6 is an npn and power-pnp is a pnp");
  CHECK(refusal(stage.drawing, SetType{stage.resistor, TypeId{0}}) == "a resistor has no type");
}

TEST_CASE("An edit that does not fit the kind is refused in words", "[circuit][identity]") {
  const Stage stage;
  const double infinite = std::numeric_limits<double>::infinity();
  const std::vector<std::pair<Edit, std::string>> misfits = {
      {ShortPart{stage.transistor}, "an npn has three leads: say which two, as in `Q6 short c-e`"},
      {ShortPart{stage.trimmer}, "a trimmer has three leads: say which two, as in `VR2 short a-b`"},
      {ShortLeads{stage.transistor, 1, 1}, "the base of Q6 and itself are one lead: name two"},
      {OpenLead{stage.resistor, 0},
       "to lift one end of a resistor is to open it: write `R10 open`"},
      {LiftWiper{stage.resistor}, "a resistor has no wiper"},
      {SetTravel{stage.resistor, 0.5}, "a resistor has no travel"},
      {SetTravel{stage.trimmer, 1.1}, "the travel of VR2 goes from 0% to 100%"},
      {SetTravel{stage.trimmer, std::numeric_limits<double>::quiet_NaN()},
       "the travel of VR2 goes from 0% to 100%"},
      {SetValue{stage.transistor, 1.0}, "an npn has no value to change"},
      {SetValue{stage.resistor, -1.0}, "the value of a resistor cannot be negative"},
      {SetValue{stage.resistor, infinite}, "the value of R10 must be finite"},
      {SetValue{stage.feed, -1e-3}, "I1 cannot be negative: exchange `from` and `into`"},
      {Leak{stage.resistor, 0, 1, 1e3}, "a resistor does not leak"},
      {Leak{stage.capacitor, 0, 1, 0.0},
       "a leak is a resistance above 0 ohms; for 0 ohms write a short"},
      {SwapLeads{stage.resistor, 0, 1}, "a resistor has no two leads to exchange by mistake"},
      {SetGain{stage.resistor, 30.0}, "a resistor has no gain"},
      {SetGain{stage.transistor, 0.0}, "a gain must be above 0"},
      {Bridge{ground, ground}, "`gnd` is one point: a bridge joins two"}};
  for (const auto& [edit, words] : misfits) CHECK(refusal(stage.drawing, edit) == words);
}

TEST_CASE("A part that is out already takes no further fault", "[circuit][identity]") {
  const Stage stage;
  const auto out = circuit::apply(checked(stage.drawing), OpenPart{stage.resistor});
  const auto then = circuit::apply(std::get<CheckedCircuit>(out), ShortPart{stage.resistor});
  REQUIRE(std::holds_alternative<std::string>(then));
  CHECK(std::get<std::string>(then) == "R10 is open or taken out already");
}

TEST_CASE("A leg left off the drawing can be neither lifted nor shorted", "[circuit][identity]") {
  const Drawing stage = quasi_complementary_stage();
  const PartId trimmer = stage.id("VR1");
  CHECK(refusal(stage, OpenLead{trimmer, 2}) == "the other end of VR1 is left off the drawing");
  CHECK(refusal(stage, ShortLeads{trimmer, 1, 2}) ==
        "the other end of VR1 is left off the drawing");
}

TEST_CASE("No edit renumbers anything", "[circuit][identity]") {
  const Drawing stage = complementary_stage();
  for (const Edit& edit : every_open_and_short(stage.circuit)) {
    const Circuit faulty = after(stage, {edit});
    CAPTURE(write_fault(stage.circuit, edit));
    REQUIRE(faulty.parts.size() >= stage.circuit.parts.size());
    for (std::size_t index = 0; index < stage.circuit.parts.size(); ++index) {
      CHECK(faulty.parts[index].name == stage.circuit.parts[index].name);
    }
    for (std::size_t index = 0; index < stage.circuit.nodes.size(); ++index) {
      CHECK(faulty.nodes[index].name == stage.circuit.nodes[index].name);
    }
  }
}

}  // namespace idlepoint::circuit
