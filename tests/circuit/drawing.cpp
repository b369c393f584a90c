#include "circuit/drawing.hpp"

#include <catch2/catch.hpp>

#include "circuit/topology.hpp"

namespace idlepoint::circuit {
namespace {

PartDetails details_of(PartKind kind) {
  switch (kind) {
    case PartKind::resistor:
      return ResistorDetails{};
    case PartKind::trimmer:
      return TrimmerDetails{};
    case PartKind::capacitor:
      return CapacitorDetails{};
    case PartKind::inductor:
      return SeriesDetails{};
    case PartKind::fuse:
      return SeriesDetails{.resistance_ohm = 0.05};
    case PartKind::thermistor:
      return ThermistorDetails{};
    case PartKind::feed:
      return FeedDetails{};
    case PartKind::diode:
      return DiodeDetails{};
    default:
      return std::monostate{};
  }
}

}  // namespace

Drawing::Drawing() { circuit.nodes.emplace_back().name = "gnd"; }

complaints::Place Drawing::next_line() {
  return {.file = "drawing", .line = ++line_, .column = 1, .line_text = "", .remark = ""};
}

NodeId Drawing::node(const std::string& name) {
  if (const auto known = find_node(circuit, name)) return *known;
  circuit.nodes.emplace_back().name = name;
  return NodeId{circuit.nodes.size() - 1};
}

Drawing& Drawing::rail(const std::string& name, double volts, double resistance_ohm) {
  Rail rail;
  rail.node = node(name);
  rail.nominal_v = volts;
  rail.resistance_ohm = resistance_ohm;
  rail.place = next_line();
  circuit.rails.push_back(rail);
  return *this;
}

Drawing& Drawing::part(std::string_view kind,
                       const std::string& name,
                       const std::vector<std::string>& nodes,
                       double value) {
  Part part;
  part.name = name;
  part.kind = part_kind(kind).value();
  part.value = value;
  part.details = details_of(part.kind);
  part.place = next_line();
  REQUIRE(nodes.size() == lead_names(part.kind).size());
  for (const std::string& it : nodes) {
    part.leads.push_back(it == "-" ? std::nullopt : std::optional(node(it)));
    complaints::Place place = part.place;
    place.column = 1 + static_cast<int>(part.leads.size());
    part.lead_places.push_back(place);
  }
  circuit.parts.push_back(part);
  return *this;
}

Drawing& Drawing::socket(const std::string& name) {
  circuit.nodes[node(name).index].is_socket = true;
  return *this;
}

Drawing& Drawing::heatsink(const std::string& name) {
  circuit.heatsinks.emplace_back().name = name;
  return *this;
}

PartType& Drawing::type(std::string_view kind, const std::string& name) {
  PartType& type = circuit.types.emplace_back();
  type.name = name;
  type.kind = part_kind(kind).value();
  return type;
}

std::vector<std::string> kinds_of(const Drawing& drawing) {
  std::vector<std::string> names;
  for (const auto& complaint : check_topology(drawing.circuit)) {
    names.emplace_back(complaints::facts(complaint.kind).name);
  }
  return names;
}

complaints::Complaint only_complaint(const Drawing& drawing) {
  const auto found = check_topology(drawing.circuit);
  CAPTURE(kinds_of(drawing));
  REQUIRE(found.size() == 1);
  REQUIRE_FALSE(found.front().places.empty());
  return found.front();
}

CheckedCircuit checked(const Drawing& drawing) {
  auto result = check_circuit(drawing.circuit);
  REQUIRE(result.has_value());
  return *std::move(result);
}

Circuit after(const Drawing& drawing, const std::vector<Edit>& edits) {
  CheckedCircuit stage = checked(drawing);
  for (const Edit& edit : edits) {
    auto changed = circuit::apply(stage, edit);
    if (const auto* words = std::get_if<std::string>(&changed)) FAIL(*words);
    stage = std::get<CheckedCircuit>(std::move(changed));
  }
  return stage.circuit();
}

std::string refusal(const Drawing& drawing, const Edit& edit) {
  auto changed = circuit::apply(checked(drawing), edit);
  const auto* words = std::get_if<std::string>(&changed);
  REQUIRE(words);
  return *words;
}

Drawing complementary_stage() {
  Drawing stage;
  stage.rail("vpos", 28.0).rail("vneg", -28.0);
  stage.part("feed", "I1", {"vpos", "b_hi"}, 5e-3);
  stage.part("hold", "V1", {"b_lo", "gnd"}, -1.21);
  stage.part("diode", "D1", {"b_hi", "m"}).part("diode", "D2", {"m", "t"});
  stage.part("trimmer", "VR2", {"t", "x", "x"}, 200.0);
  std::get<TrimmerDetails>(stage.last().details).spare = SpareLeg::tied;
  stage.part("resistor", "R9", {"x", "b_lo"}, 47.0);
  stage.part("npn", "Q4", {"vpos", "b_hi", "d_hi"}).part("pnp", "Q5", {"vneg", "b_lo", "d_lo"});
  stage.part("resistor", "R10", {"d_hi", "d_lo"}, 150.0);
  stage.part("npn", "Q6", {"vpos", "d_hi", "e_hi"}).part("pnp", "Q7", {"vneg", "d_lo", "e_lo"});
  stage.part("resistor", "R11", {"e_hi", "out"}, 0.22);
  stage.part("resistor", "R12", {"out", "e_lo"}, 0.22);
  stage.part("capacitor", "C5", {"out", "z"}, 100e-9).part("resistor", "R14", {"z", "gnd"}, 10.0);
  stage.part("resistor", "R13", {"out", "gnd"}, 1e3);
  stage.part("load", "LS1", {"out", "gnd"}, 8.0);
  return stage;
}

Drawing quasi_complementary_stage() {
  Drawing stage;
  stage.rail("vpos", 32.0).rail("vneg", -32.0);
  stage.part("resistor", "R6", {"vpos", "bs"}, 2200.0).part("resistor", "R7", {"bs", "hi"}, 2200.0);
  stage.part("capacitor", "C4", {"bs", "out"}, 47e-6);
  stage.part("diode", "D1", {"hi", "x1"}).part("diode", "D2", {"x1", "x3"});
  stage.part("trimmer", "VR1", {"x3", "lo", "-"}, 200.0);
  stage.part("npn", "Q3", {"lo", "c1", "vneg"}).part("resistor", "R2", {"c1", "vneg"}, 1e3);
  stage.part("npn", "Q5", {"vpos", "hi", "d_hi"}).part("resistor", "R10", {"d_hi", "out"}, 150.0);
  stage.part("npn", "Q7", {"vpos", "d_hi", "e7"}).part("resistor", "R11", {"e7", "out"}, 0.47);
  stage.part("pnp", "Q6", {"d_lo", "lo", "e6"}).part("resistor", "R13", {"out", "e6"}, 47.0);
  stage.part("resistor", "R14", {"d_lo", "e8"}, 150.0);
  stage.part("npn", "Q8", {"out", "d_lo", "e8"}).part("resistor", "R12", {"e8", "vneg"}, 0.47);
  stage.part("load", "LS1", {"out", "gnd"}, 8.0);
  return stage;
}

Drawing capacitor_coupled_stage() {
  Drawing stage;
  stage.rail("vp", 28.0);
  stage.part("resistor", "R2", {"vp", "b1"}, 120e3).part("resistor", "R3", {"b1", "gnd"}, 91e3);
  stage.part("capacitor", "C1", {"in", "b1"}, 1e-6);
  stage.part("pnp", "Q1", {"c1", "b1", "e1"}).part("resistor", "R4", {"e1", "mid"}, 4700.0);
  stage.part("resistor", "R5", {"c1", "gnd"}, 2200.0).part("npn", "Q3", {"lo", "c1", "gnd"});
  stage.part("resistor", "R6", {"vp", "bs"}, 680.0).part("resistor", "R7", {"bs", "hi"}, 680.0);
  stage.part("capacitor", "C2", {"bs", "spk"}, 100e-6);
  stage.part("diode", "D1", {"hi", "x2"}).part("trimmer", "VR1", {"x2", "lo", "lo"}, 100.0);
  stage.part("npn", "Q7", {"vp", "hi", "e7"}).part("pnp", "Q8", {"gnd", "lo", "e8"});
  stage.part("resistor", "R11", {"e7", "mid"}, 0.5).part("resistor", "R12", {"mid", "e8"}, 0.5);
  stage.part("capacitor", "C3", {"mid", "spk"}, 1000e-6);
  stage.part("load", "LS1", {"spk", "gnd"}, 8.0);
  return stage;
}

Drawing compound_stage() {
  Drawing stage;
  stage.rail("vpos", 35.0).rail("vneg", -35.0);
  stage.part("feed", "I1", {"vpos", "hi"}, 8e-3).part("hold", "V1", {"lo", "gnd"}, -0.63);
  stage.part("npn", "Q4", {"hi", "b4", "lo"}).part("resistor", "R8", {"hi", "b4"}, 1e3);
  stage.part("trimmer", "VR1", {"b4", "x4", "-"}, 500.0);
  stage.part("resistor", "R9", {"x4", "lo"}, 820.0);
  stage.part("npn", "Q5", {"cd1", "hi", "u"}).part("resistor", "R10", {"vpos", "cd1"}, 100.0);
  stage.part("pnp", "Q7", {"u", "cd1", "vpos"}).part("resistor", "R11", {"u", "out"}, 0.22);
  stage.part("pnp", "Q6", {"cd2", "lo", "w"}).part("resistor", "R13", {"cd2", "vneg"}, 100.0);
  stage.part("npn", "Q8", {"w", "cd2", "vneg"}).part("resistor", "R12", {"w", "out"}, 0.22);
  stage.part("load", "LS1", {"out", "gnd"}, 8.0);
  return stage;
}

}  // namespace idlepoint::circuit
