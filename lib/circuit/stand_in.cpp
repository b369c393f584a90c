#include "circuit/stand_in.hpp"

#include <fmt/format.h>

#include <utility>

#include "circuit/sentence.hpp"
#include "values/format.hpp"

namespace idlepoint::circuit {
namespace {

/// Builds the new parts into a circuit, between the two nodes of the old one.
class Builder {
 public:
  Builder(Circuit& circuit, PartId old, std::size_t positive_lead)
      : circuit_(circuit),
        old_(circuit.at(old)),
        high_(*old_.leads[positive_lead]),
        low_(*old_.leads[1 - positive_lead]) {}

  void build(const DiodeString& made_of) {
    NodeId from = high_;
    for (std::size_t index = 1; index <= made_of.diodes; ++index) {
      const bool is_last = index == made_of.diodes && made_of.series_ohm == 0.0;
      const NodeId to = is_last ? low_ : inner_node(fmt::format("{}/k{}", old_.name, index));
      Part diode = new_part(fmt::format("{}/{}", old_.name, index), PartKind::diode, {from, to});
      diode.details = DiodeDetails{};
      diode.type = made_of.type;
      diode.mounting = old_.mounting;
      add(std::move(diode));
      from = to;
    }
    if (made_of.series_ohm > 0.0) add_resistor("r", {from, low_}, made_of.series_ohm);
  }

  void build(const Spreader& made_of) {
    const bool is_npn = circuit_.at(made_of.type).kind == PartKind::npn;
    const NodeId base = inner_node(old_.name + "/b");
    const NodeId collector = is_npn ? high_ : low_;
    const NodeId emitter = is_npn ? low_ : high_;
    Part transistor = new_part(
        old_.name + "/q", is_npn ? PartKind::npn : PartKind::pnp, {collector, base, emitter});
    transistor.type = made_of.type;
    transistor.mounting = old_.mounting;
    add(std::move(transistor));
    add_resistor("cb", {collector, base}, made_of.collector_base_ohm);
    add_resistor("be", {base, emitter}, made_of.base_emitter_ohm);
  }

  [[nodiscard]] std::vector<PartId> take() {
    for (Part& part : made_) {
      ids_.push_back({circuit_.parts.size()});
      circuit_.parts.push_back(std::move(part));
    }
    return std::move(ids_);
  }

 private:
  NodeId inner_node(std::string name) {
    const NodeId id{circuit_.nodes.size()};
    circuit_.nodes.push_back(
        {.name = std::move(name), .is_socket = false, .lifted = false, .place = old_.place});
    return id;
  }

  [[nodiscard]] Part new_part(std::string name, PartKind kind, const std::vector<NodeId>& nodes) {
    Part part;
    part.name = std::move(name);
    part.kind = kind;
    part.leads.assign(nodes.begin(), nodes.end());
    part.place = old_.place;
    return part;
  }

  void add_resistor(const char* suffix, const std::vector<NodeId>& nodes, double ohm) {
    constexpr double usual_tolerance = 0.05;
    Part resistor = new_part(fmt::format("{}/{}", old_.name, suffix), PartKind::resistor, nodes);
    resistor.value = ohm;
    resistor.tolerance = usual_tolerance;
    resistor.details = ResistorDetails{};
    add(std::move(resistor));
  }

  // Kept aside: `old_` refers into the circuit's parts.
  void add(Part part) { made_.push_back(std::move(part)); }

  Circuit& circuit_;
  const Part& old_;
  NodeId high_;
  NodeId low_;
  std::vector<Part> made_;
  std::vector<PartId> ids_;
};

}  // namespace

std::variant<StoodIn, std::string> stand_in(const CheckedCircuit& stage,
                                            const StandIn& stand_in,
                                            std::size_t positive_lead) {
  const Part& old = stage->at(stand_in.for_part);
  if (old.kind != PartKind::diode && old.kind != PartKind::thermistor) {
    return fmt::format(
        "{} is {}, and a stand-in takes the place of a diode, a stack or a thermistor",
        old.name,
        a_kind(old.kind));
  }
  if (old.damage.absent) return fmt::format("{} is open or taken out already", old.name);
  if (!lead(old, 0) || !lead(old, 1)) return fmt::format("a leg of {} is left off", old.name);
  std::vector<PartId> parts;
  CheckedCircuit changed = stage.edited([&](Circuit& circuit) {
    Builder builder(circuit, stand_in.for_part, positive_lead);
    std::visit([&](const auto& made_of) { builder.build(made_of); }, stand_in.made_of);
    parts = builder.take();
    circuit.at(stand_in.for_part).damage.absent = true;
  });
  return StoodIn{std::move(changed), std::move(parts)};
}

std::string write_stand_in(const Circuit& circuit, const StandIn& stand_in) {
  if (const auto* spreader = std::get_if<Spreader>(&stand_in.made_of)) {
    return fmt::format("spreader {} {} {}",
                       circuit.at(spreader->type).name,
                       values::format_ohms(spreader->collector_base_ohm),
                       values::format_ohms(spreader->base_emitter_ohm));
  }
  const auto& string = std::get<DiodeString>(stand_in.made_of);
  const std::string resistor =
      string.series_ohm > 0.0 ? values::format_ohms(string.series_ohm) : std::string();
  if (string.diodes == 0) return resistor;
  return fmt::format("{} {}{}{}",
                     string.diodes,
                     circuit.at(*string.type).name,
                     resistor.empty() ? "" : " + ",
                     resistor);
}

}  // namespace idlepoint::circuit
