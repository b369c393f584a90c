// Oracle: docs/language.md: the statement words, the lead names and the forms of a probe.
#include <catch2/catch.hpp>
#include <map>

#include "circuit/drawing.hpp"

namespace idlepoint::circuit {

TEST_CASE("Every kind goes by its statement word, and back", "[circuit][identity]") {
  const std::map<std::string, std::vector<std::string>> leads_by_word = {
      {"resistor", {"1", "2"}},
      {"trimmer", {"a", "wiper", "b"}},
      {"capacitor", {"1", "2"}},
      {"inductor", {"1", "2"}},
      {"fuse", {"1", "2"}},
      {"link", {"1", "2"}},
      {"lamp", {"1", "2"}},
      {"thermistor", {"1", "2"}},
      {"hold", {"1", "2"}},
      {"feed", {"1", "2"}},
      {"load", {"1", "2"}},
      {"diode", {"anode", "cathode"}},
      {"npn", {"c", "b", "e"}},
      {"pnp", {"c", "b", "e"}},
      {"n-jfet", {"d", "g", "s"}},
      {"p-jfet", {"d", "g", "s"}},
      {"n-mosfet", {"d", "g", "s"}},
      {"p-mosfet", {"d", "g", "s"}}};
  for (const auto& [word, leads] : leads_by_word) {
    const auto kind = part_kind(word);
    REQUIRE(kind);
    CHECK(keyword(*kind) == word);
    const auto names = lead_names(*kind);
    CHECK(std::vector<std::string>(names.begin(), names.end()) == leads);
    const bool is_three = leads.size() == 3 && word != "trimmer";
    CHECK(is_transistor(*kind) == is_three);
    CHECK(is_bipolar(*kind) == (word == "npn" || word == "pnp"));
    CHECK(is_fet(*kind) == (word.find("fet") != std::string::npos));
    CHECK(has_type(*kind) == (is_three || word == "diode"));
    CHECK(is_p_kind(*kind) == (is_three && word.starts_with("p")));
    for (std::size_t lead = 0; lead < leads.size(); ++lead) {
      CHECK_FALSE(lead_in_words(*kind, lead).empty());
    }
  }
  CHECK_FALSE(part_kind("Resistor"));
  CHECK_FALSE(part_kind(""));
}

TEST_CASE("Leads are named as the bench names them", "[circuit][identity]") {
  CHECK(lead_in_words(PartKind::npn, 2) == "emitter");
  CHECK(lead_in_words(PartKind::p_mosfet, 1) == "gate");
  CHECK(lead_in_words(PartKind::trimmer, 0) == "first-named end");
  CHECK(lead_in_words(PartKind::trimmer, 1) == "wiper");
  CHECK(lead_in_words(PartKind::diode, 1) == "cathode");
}

TEST_CASE("Everything with a name is found by it, and nothing by another", "[circuit][identity]") {
  Drawing stage = complementary_stage();
  stage.heatsink("HS1");
  stage.circuit.readings.emplace_back().name = "idle";
  stage.type("npn", "power-npn");
  const Circuit& drawn = stage.circuit;
  CHECK(find_node(drawn, "gnd") == ground);
  CHECK(drawn.at(*find_node(drawn, "e_hi")).name == "e_hi");
  CHECK(drawn.at(*find_part(drawn, "R11")).name == "R11");
  CHECK(find_heatsink(drawn, "HS1") == HeatsinkId{0});
  CHECK(find_reading(drawn, "idle") == ReadingId{0});
  CHECK(find_type(drawn, "power-npn") == TypeId{0});
  CHECK(find_rail(drawn, *find_node(drawn, "vneg")) == RailId{1});
  CHECK_FALSE(find_rail(drawn, ground));
  CHECK_FALSE(find_part(drawn, "r11"));
  CHECK_FALSE(find_node(drawn, "R11"));
}

TEST_CASE("A probe is written as a reading statement has it", "[circuit][identity]") {
  Drawing stage = complementary_stage();
  stage.heatsink("HS1");
  const Circuit& drawn = stage.circuit;
  const NodeId a = stage.node("e_hi");
  CHECK(write_probe(drawn, VoltsBetween{a, ground}) == "volts e_hi gnd");
  CHECK(write_probe(drawn, AmpsThrough{stage.id("R11")}) == "amps R11");
  CHECK(write_probe(drawn, AmpsThrough{RailId{0}}) == "amps vpos");
  CHECK(write_probe(drawn, WattsIn{RailId{1}}) == "watts vneg");
  CHECK(write_probe(drawn, CelsiusOf{HeatsinkId{0}}) == "celsius HS1");
  CHECK(write_probe(drawn, CelsiusOf{stage.id("Q6")}) == "celsius Q6");
}

TEST_CASE("A point without a name is told by what meets there", "[circuit][identity]") {
  Drawing stage;
  stage.part("diode", "D601", {"hi", "D601.cathode"});
  stage.part("diode", "D602", {"D601.cathode", "lo"});
  stage.part("npn", "Q603", {"Q603.c", "lo", "gnd"});
  CHECK(node_in_words(stage.circuit, stage.node("hi")) == "hi");
  CHECK(node_in_words(stage.circuit, stage.node("D601.cathode")) == "the joint of D601 and D602");
  CHECK(node_in_words(stage.circuit, stage.node("Q603.c")) == "the collector of Q603");
  const Circuit faulty =
      after(complementary_stage(), {OpenLead{complementary_stage().id("Q6"), 1}});
  CHECK(node_in_words(faulty, NodeId{faulty.nodes.size() - 1}) == "the base of Q6 (lifted)");
}

TEST_CASE("A stage can heat where a part sits on a sink or warms itself", "[circuit][identity]") {
  Drawing stage = complementary_stage();
  CHECK_FALSE(can_heat(stage.circuit));
  stage.type("npn", "small-npn");
  stage.circuit.at(stage.id("Q4")).type = TypeId{0};
  CHECK_FALSE(can_heat(stage.circuit));
  Drawing self_heating = stage;
  self_heating.circuit.types[0].ratings.junction_to_ambient_k_per_w = 200.0;
  CHECK(can_heat(self_heating.circuit));
  stage.heatsink("HS1");
  stage.circuit.at(stage.id("Q5")).mounting.heatsink = HeatsinkId{0};
  CHECK(can_heat(stage.circuit));
}

TEST_CASE("A measured rail goes before its nominal", "[circuit][identity]") {
  Rail rail;
  rail.nominal_v = 33.0;
  CHECK(source_v(rail) == 33.0);
  rail.measured_v = 35.6;
  CHECK(source_v(rail) == 35.6);
}

}  // namespace idlepoint::circuit
