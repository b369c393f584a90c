#include "board.hpp"

#include <utility>

namespace idlepoint::solve {

using circuit::CheckedCircuit;
using circuit::NodeId;
using circuit::Part;
using circuit::PartId;
using circuit::PartKind;
using circuit::PartType;
using circuit::TypeId;

Board::Board() { circuit.nodes.emplace_back().name = "gnd"; }

NodeId Board::node(const std::string& name) {
  if (const auto known = circuit::find_node(circuit, name)) return *known;
  circuit.nodes.emplace_back().name = name;
  return NodeId{circuit.nodes.size() - 1};
}

PartId Board::part(const std::string& name) const {
  const auto found = circuit::find_part(circuit, name);
  INFO(name);
  REQUIRE(found);
  return *found;
}

Part& Board::add(const std::string& name, PartKind kind, const std::vector<std::string>& nodes) {
  Part part;
  part.name = name;
  part.kind = kind;
  for (const std::string& it : nodes) {
    part.leads.push_back(it == "-" ? std::nullopt : std::optional(node(it)));
  }
  part.lead_places.resize(nodes.size());
  return circuit.parts.emplace_back(std::move(part));
}

Board& Board::rail(const std::string& name, double volts, double ohm) {
  circuit::Rail rail;
  rail.node = node(name);
  rail.nominal_v = volts;
  rail.resistance_ohm = ohm;
  circuit.rails.push_back(rail);
  return *this;
}

Board& Board::resistor(const std::string& name,
                       const std::string& a,
                       const std::string& b,
                       double ohm) {
  Part& part = add(name, PartKind::resistor, {a, b});
  part.value = ohm;
  part.details = circuit::ResistorDetails{};
  return *this;
}

Board& Board::capacitor(const std::string& name, const std::string& a, const std::string& b) {
  Part& part = add(name, PartKind::capacitor, {a, b});
  part.value = 1e-6;
  part.details = circuit::CapacitorDetails{};
  return *this;
}

Board& Board::link(const std::string& name, const std::string& a, const std::string& b) {
  add(name, PartKind::link, {a, b});
  return *this;
}

Board& Board::hold(const std::string& name,
                   const std::string& a,
                   const std::string& b,
                   double volts) {
  add(name, PartKind::hold, {a, b}).value = volts;
  return *this;
}

Board& Board::feed(const std::string& name,
                   const std::string& from,
                   const std::string& into,
                   double amps,
                   std::optional<double> compliance_v) {
  Part& part = add(name, PartKind::feed, {from, into});
  part.value = amps;
  part.details = circuit::FeedDetails{compliance_v};
  return *this;
}

Board& Board::lamp(const std::string& name,
                   const std::string& a,
                   const std::string& b,
                   double rated_v,
                   double rated_w) {
  add(name, PartKind::lamp, {a, b}).details = circuit::LampDetails{rated_v, rated_w};
  return *this;
}

Board& Board::diode(const std::string& name,
                    const std::string& anode,
                    const std::string& cathode,
                    TypeId type) {
  Part& part = add(name, PartKind::diode, {anode, cathode});
  part.details = circuit::DiodeDetails{};
  part.type = type;
  return *this;
}

Board& Board::transistor(const std::string& name,
                         const std::string& first,
                         const std::string& second,
                         const std::string& third,
                         TypeId type) {
  add(name, circuit.at(type).kind, {first, second, third}).type = type;
  return *this;
}

Board& Board::trimmer(const std::string& name,
                      const std::string& a,
                      const std::string& wiper,
                      const std::string& b,
                      double ohm,
                      const circuit::TrimmerDetails& details) {
  Part& part = add(name, PartKind::trimmer, {a, wiper, b});
  part.value = ohm;
  part.details = details;
  return *this;
}

Board& Board::adjust(const std::string& trimmer,
                     const circuit::Probe& probe,
                     double target,
                     double within) {
  const circuit::ReadingId reading{circuit.readings.size()};
  circuit.readings.push_back({"reading", probe, {}, {}});
  circuit.adjustments.push_back({part(trimmer), reading, target, within, {}});
  return *this;
}

TypeId Board::add_type(PartType type) {
  circuit.types.push_back(std::move(type));
  return TypeId{circuit.types.size() - 1};
}

TypeId Board::bipolar_type(PartKind kind, const devices::BipolarData& data) {
  PartType type;
  type.name = "bipolar";
  type.kind = kind;
  type.law = data;
  return add_type(std::move(type));
}

TypeId Board::fet_type(PartKind kind, const devices::FetData& data) {
  PartType type;
  type.name = "fet";
  type.kind = kind;
  type.law = data;
  return add_type(std::move(type));
}

TypeId Board::diode_type(const devices::DiodeData& data) {
  PartType type;
  type.name = "diode";
  type.kind = PartKind::diode;
  type.law = data;
  return add_type(std::move(type));
}

circuit::Probe Board::volts(const std::string& a, const std::string& b) {
  return circuit::VoltsBetween{node(a), node(b)};
}

circuit::Probe Board::amps(const std::string& name) const {
  return circuit::AmpsThrough{part(name)};
}

circuit::Probe Board::watts(const std::string& name) const { return circuit::WattsIn{part(name)}; }

CheckedCircuit Board::checked() const {
  circuit::Circuit sound;
  sound.nodes = {{.name = "gnd", .place = {}}, {.name = "a", .place = {}}};
  sound.rails.push_back({.node = NodeId{1}, .nominal_v = 1.0, .measured_v = {}, .place = {}});
  Part load;
  load.name = "R1";
  load.leads = {NodeId{1}, circuit::ground};
  load.lead_places.resize(2);
  load.value = 1e3;
  load.details = circuit::ResistorDetails{};
  sound.parts.push_back(load);
  auto result = circuit::check_circuit(std::move(sound));
  REQUIRE(result.has_value());
  return std::move(result).value().edited([&](circuit::Circuit& copy) { copy = circuit; });
}

}  // namespace idlepoint::solve
