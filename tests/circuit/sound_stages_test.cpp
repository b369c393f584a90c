// Oracle: output stages as textbooks and service sheets draw them, which work; each part's removal
// of one leg must be noticed.
#include <catch2/catch.hpp>

#include "circuit/drawing.hpp"
#include "circuit/topology.hpp"

namespace idlepoint::circuit {
namespace {

const std::vector<std::string> nothing;

}  // namespace

TEST_CASE("A sound output stage of any common kind draws no complaint", "[circuit][published]") {
  CHECK(kinds_of(complementary_stage()) == nothing);
  CHECK(kinds_of(quasi_complementary_stage()) == nothing);
  CHECK(kinds_of(capacitor_coupled_stage()) == nothing);
  CHECK(kinds_of(compound_stage()) == nothing);
}

TEST_CASE("A mirror of two transistors draws one remark, on the diode-connected one",
          "[circuit][published]") {
  Drawing mirror;
  mirror.rail("vp", 15.0);
  mirror.part("resistor", "R1", {"vp", "ref"}, 14.3e3);
  mirror.part("npn", "Q1", {"ref", "ref", "gnd"}).part("npn", "Q2", {"c2", "ref", "gnd"});
  mirror.part("resistor", "R2", {"vp", "c2"}, 10e3);
  const auto complaint = only_complaint(mirror);
  CHECK(complaint.kind == complaints::kind("collector-on-base"));
  CHECK(complaint.headline == "collector and base of Q1 are both on `ref`");
  CHECK(check_circuit(mirror.circuit).has_value());
}

TEST_CASE("A germanium stage of two pnp between ground and a negative rail is sound",
          "[circuit][published]") {
  Drawing stage;
  stage.rail("vn", -24.0);
  stage.part("pnp", "Q1", {"mid", "b1", "e1"}).part("resistor", "R1", {"e1", "gnd"}, 0.47);
  stage.part("resistor", "S1", {"b1", "v1"}, 2.0).part("resistor", "R2", {"v1", "mid"}, 820.0);
  stage.part("thermistor", "TH1", {"v1", "gnd"}, 18.0);
  stage.part("pnp", "Q2", {"vn", "b2", "e2"}).part("resistor", "R3", {"e2", "mid"}, 0.47);
  stage.part("resistor", "S2", {"b2", "v2"}, 2.0).part("resistor", "R4", {"v2", "vn"}, 820.0);
  stage.part("thermistor", "TH2", {"v2", "mid"}, 18.0);
  stage.part("capacitor", "C1", {"mid", "spk"}, 1e-3).part("load", "LS1", {"spk", "gnd"}, 8.0);
  CHECK(kinds_of(stage) == nothing);
}

TEST_CASE("Lateral outputs with gate zeners back to back are sound", "[circuit][published]") {
  Drawing stage;
  stage.rail("vp", 50.0).rail("vn", -50.0);
  stage.part("feed", "I1", {"vp", "hi"}, 6e-3).part("hold", "V1", {"lo", "gnd"}, -0.8);
  stage.part("resistor", "R1", {"hi", "lo"}, 275.0).part("resistor", "R2", {"hi", "g1"}, 220.0);
  stage.part("resistor", "R3", {"lo", "g2"}, 330.0);
  stage.part("n-mosfet", "M1", {"vp", "g1", "s1"}).part("p-mosfet", "M2", {"vn", "g2", "s2"});
  stage.part("resistor", "R4", {"s1", "out"}, 0.1).part("resistor", "R5", {"s2", "out"}, 0.1);
  devices::DiodeData zener;
  zener.zener_voltage_v = 12.0;
  stage.type("diode", "zener-12v").law = zener;
  stage.part("diode", "Z1", {"zz", "g1"}).last().type = TypeId{0};
  stage.part("diode", "Z2", {"zz", "out"}).last().type = TypeId{0};
  stage.part("load", "LS1", {"out", "gnd"}, 8.0);
  CHECK(kinds_of(stage) == nothing);
}

TEST_CASE("A misspelt leg of any part in a sound stage is an error", "[circuit][identity]") {
  const Drawing sound = complementary_stage();
  for (std::size_t index = 0; index < sound.circuit.parts.size(); ++index) {
    const Part& part = sound.circuit.parts[index];
    // A capacitor may end anywhere; a trimmer's spare leg goes with its wiper.
    if (part.kind == PartKind::capacitor) continue;
    const std::size_t leads = part.kind == PartKind::trimmer ? 1 : part.leads.size();
    for (std::size_t lead = 0; lead < leads; ++lead) {
      Drawing slipped = sound;
      const NodeId stray = slipped.node("entirely_elsewhere");
      slipped.circuit.parts[index].leads[lead] = stray;
      CAPTURE(part.name, lead, kinds_of(slipped));
      CHECK(complaints::has_error(check_topology(slipped.circuit)));
    }
  }
}

TEST_CASE("A circuit with a blank is refused with one complaint a blank", "[circuit][identity]") {
  Drawing stage = complementary_stage();
  stage.circuit.blanks = {{.text = "the value of R8 (resistor, b_hi to t)", .place = {}},
                          {.text = "the type of Q4 (npn)", .place = {}}};
  const auto result = check_circuit(stage.circuit);
  REQUIRE_FALSE(result.has_value());
  CHECK(result.complaints().size() == 2);
  CHECK(result.complaints().front().kind == complaints::kind("blank"));
}

TEST_CASE("Warnings travel with the checked circuit and errors refuse it", "[circuit][identity]") {
  Drawing stage = complementary_stage();
  stage.part("feed", "I2", {"vpos", "out"}, 1e-3);
  std::get<FeedDetails>(stage.last().details).compliance_v = std::nullopt;
  const auto warned = check_circuit(stage.circuit);
  REQUIRE(warned.has_value());
  REQUIRE(warned->warnings().size() == 1);

  stage.part("resistor", "R20", {"out", "nowhere"}, 1e3);
  const auto refused = check_circuit(stage.circuit);
  REQUIRE_FALSE(refused.has_value());
  CHECK(refused.complaints().size() == 2);
}

}  // namespace idlepoint::circuit
