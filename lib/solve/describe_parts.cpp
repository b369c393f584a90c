#include "solve/describe_parts.hpp"

#include "devices/passive.hpp"
#include "solve/part_numbers.hpp"

namespace idlepoint::solve {

using circuit::Part;
using circuit::PartId;
using circuit::PartKind;

Sketch::Sketch(const circuit::Circuit& circuit, const Conditions& conditions)
    : circuit_(circuit), conditions_(conditions) {
  result_.wiring.nodes = static_cast<Index>(circuit.nodes.size());
  result_.wiring.points = result_.wiring.nodes;
}

void Sketch::add_ideal(Index a, Index b, double emf_v, const Owner& owner_a, const Owner& owner_b) {
  result_.wiring.ideals.push_back({a, b, owner_a, owner_b});
  result_.numbers.emf_v.push_back(emf_v);
}

void Sketch::add_resistance(
    Index a, Index b, double ohm, const Owner& owner_a, const Owner& owner_b) {
  if (ohm == 0.0) return add_ideal(a, b, 0.0, owner_a, owner_b);
  result_.wiring.conductors.push_back({a, b, owner_a, owner_b});
  result_.numbers.conductance_s.push_back(1.0 / ohm);
}

void Sketch::add_lead_points(const Part& part) {
  std::vector<Index> points;
  points.reserve(part.leads.size());
  for (const auto& node : part.leads) {
    if (node) {
      points.push_back(static_cast<Index>(node->index));
    } else if (part.kind == PartKind::trimmer) {
      points.push_back(0);
    } else {
      points.push_back(new_point());
      result_.wiring.left_off.push_back(points.back());
    }
  }
  result_.wiring.lead_points.push_back(std::move(points));
}

void Sketch::add_part(PartId id) {
  const Part& part = circuit_.at(id);
  add_lead_points(part);
  if (part.damage.absent) return;
  add_damage(part, id);
  if (part.damage.is_link) return;
  if (part.kind == PartKind::trimmer) return add_trimmer(part, id);
  if (part.kind == PartKind::diode) return add_diode(part, id);
  if (circuit::is_bipolar(part.kind)) return add_bipolar(part, id);
  if (circuit::is_fet(part.kind)) return add_fet(part, id);
  add_two_terminal(part, id);
}

void Sketch::add_damage(const Part& part, PartId id) {
  const std::vector<Index>& points = result_.wiring.lead_points.back();
  if (part.damage.is_link) add_ideal(points[0], points[1], 0.0, {id, 0}, {id, 1});
  for (const auto& inner : part.damage.shorts) {
    add_ideal(
        points[inner.lead_1], points[inner.lead_2], 0.0, {id, inner.lead_1}, {id, inner.lead_2});
  }
  for (const auto& inner : part.damage.leaks) {
    add_resistance(points[inner.lead_1],
                   points[inner.lead_2],
                   inner.ohm,
                   {id, inner.lead_1},
                   {id, inner.lead_2});
  }
}

void Sketch::add_two_terminal(const Part& part, PartId id) {
  const Index a = result_.wiring.lead_points.back()[0];
  const Index b = result_.wiring.lead_points.back()[1];
  const Owner owner_a{id, 0};
  const Owner owner_b{id, 1};
  const double ambient_k = circuit_.ambient_k;
  const auto resistance = [&](double ohm) { add_resistance(a, b, ohm, owner_a, owner_b); };
  switch (part.kind) {
    case PartKind::resistor: {
      const auto& details = std::get<circuit::ResistorDetails>(part.details);
      return resistance(
          devices::resistor_resistance(part.value, details.tempco_per_k, ambient_k).ohm);
    }
    case PartKind::capacitor: {
      const auto& details = std::get<circuit::CapacitorDetails>(part.details);
      if (details.leakage_ohm) resistance(*details.leakage_ohm);
      return;
    }
    case PartKind::inductor:
    case PartKind::fuse:
      return resistance(std::get<circuit::SeriesDetails>(part.details).resistance_ohm);
    case PartKind::thermistor: {
      const auto& details = std::get<circuit::ThermistorDetails>(part.details);
      return resistance(devices::thermistor_resistance(part.value, details.beta_k, ambient_k).ohm);
    }
    case PartKind::load:
      if (conditions_.load_connected) resistance(part.value);
      return;
    case PartKind::link:
      return add_ideal(a, b, 0.0, owner_a, owner_b);
    case PartKind::hold:
      return add_ideal(a, b, part.value, owner_a, owner_b);
    case PartKind::lamp: {
      const auto& details = std::get<circuit::LampDetails>(part.details);
      result_.wiring.lamps.push_back({a, b, owner_a, owner_b});
      result_.numbers.lamps.push_back({details.rated_v, details.rated_w});
      return;
    }
    case PartKind::feed: {
      const auto& details = std::get<circuit::FeedDetails>(part.details);
      result_.wiring.feeds.push_back({a, b, owner_a, owner_b});
      result_.numbers.feeds.push_back({part.value, details.compliance_v});
      return;
    }
    default:
      return;
  }
}

void Sketch::add_trimmer(const Part& part, PartId id) {
  const auto& details = std::get<circuit::TrimmerDetails>(part.details);
  const std::vector<Index> points = result_.wiring.lead_points.back();
  const bool has_inner = details.wiper_resistance_ohm > 0.0 || part.damage.wiper_open;
  const Index wiper = has_inner ? new_point() : points[1];
  const Owner wiper_owner = has_inner ? Owner{id, {}} : Owner{id, 1};
  if (has_inner && !part.damage.wiper_open) {
    add_resistance(wiper, points[1], details.wiper_resistance_ohm, {id, {}}, {id, 1});
  }
  Track track{id, {}, {}};
  const double end_ohm = details.end_resistance_ohm;
  std::vector<TwoPole>& conductors = result_.wiring.conductors;
  const auto stretch = [&](std::size_t lead, double travel) -> std::optional<std::size_t> {
    const std::size_t before = conductors.size();
    add_resistance(points[lead], wiper, travel * part.value + end_ohm, {id, lead}, wiper_owner);
    if (conductors.size() == before) return std::nullopt;
    return before;
  };
  if (part.leads[0]) track.stretch_a = stretch(0, details.travel);
  if (part.leads[2]) track.stretch_b = stretch(2, 1.0 - details.travel);
  result_.wiring.tracks.push_back(track);
}

Index Sketch::behind(PartId id,
                     std::size_t lead,
                     double ohm,
                     std::optional<std::size_t>& inner_lead) {
  const Index outer = result_.wiring.lead_points.back()[lead];
  inner_lead = lead;
  if (ohm == 0.0) return outer;
  const Index inner = new_point();
  add_resistance(outer, inner, ohm, {id, lead}, {id, {}});
  inner_lead.reset();
  return inner;
}

void Sketch::add_diode(const Part& part, PartId id) {
  const auto& data = std::get<devices::DiodeData>(circuit_.at(*part.type).law);
  const double count = std::get<circuit::DiodeDetails>(part.details).junctions;
  std::optional<std::size_t> lead;
  const Index anode = behind(id, 0, count * data.series_resistance_ohm, lead);
  result_.wiring.diodes.push_back(
      {anode, result_.wiring.lead_points.back()[1], {id, lead}, {id, 1}});
  result_.numbers.diodes.push_back(diode_numbers(circuit_, part, circuit_.ambient_k));
}

void Sketch::add_bipolar(const Part& part, PartId id) {
  const auto& data = std::get<devices::BipolarData>(circuit_.at(*part.type).law);
  ThreePole pole{{}, id, {}};
  pole.points[0] = behind(id, 0, data.collector_resistance_ohm, pole.leads[0]);
  pole.points[1] = behind(id, 1, data.base_resistance_ohm, pole.leads[1]);
  pole.points[2] = behind(id, 2, data.emitter_resistance_ohm, pole.leads[2]);
  result_.wiring.bipolars.push_back(pole);
  result_.numbers.bipolars.push_back(bipolar_numbers(circuit_, part, circuit_.ambient_k));
}

void Sketch::add_fet(const Part& part, PartId id) {
  const auto& data = std::get<devices::FetData>(circuit_.at(*part.type).law);
  ThreePole pole{{}, id, {}};
  pole.points[0] = behind(id, 0, data.drain_resistance_ohm, pole.leads[0]);
  pole.points[1] = behind(id, 1, 0.0, pole.leads[1]);
  pole.points[2] = behind(id, 2, data.source_resistance_ohm, pole.leads[2]);
  const FetNumbers fet = fet_numbers(circuit_, part, circuit_.ambient_k);
  result_.wiring.fets.push_back(pole);
  result_.numbers.fets.push_back(fet);
  if (fet.at.has_diode) add_fet_junctions(fet, pole);
}

void Sketch::add_fet_junctions(const FetNumbers& fet, const ThreePole& pole) {
  const DiodeNumbers junction = fet_junction_numbers(fet);
  const auto add = [&](std::size_t anode, std::size_t cathode) {
    if (fet.sign < 0.0) std::swap(anode, cathode);
    result_.wiring.diodes.push_back({pole.points[anode],
                                     pole.points[cathode],
                                     {pole.part, pole.leads[anode]},
                                     {pole.part, pole.leads[cathode]}});
    result_.numbers.diodes.push_back(junction);
  };
  if (fet.at.is_junction) {
    add(1, 0);
    add(1, 2);
  } else {
    add(2, 0);
  }
}

}  // namespace idlepoint::solve
