#include "solve/parameter_slopes.hpp"

#include <algorithm>

#include "devices/passive.hpp"
#include "solve/law_slopes.hpp"

namespace idlepoint::solve {
namespace {

using circuit::Circuit;
using circuit::Parameter;
using circuit::Part;
using circuit::PartId;
using circuit::PartKind;

/// A transistor's law, or a trimmer's two stretches.
constexpr std::size_t terminals_of_most = 4;

/// The poles of every part, whether it heats or not.
std::vector<HeatedPoles> poles_of_all_parts(const Circuit& circuit, const Wiring& wiring) {
  HeatModel model;
  for (std::size_t k = 0; k < circuit.parts.size(); ++k) {
    model.parts.push_back({PartId{k}, {}, 0.0, 1.0});
    model.part_of.push_back(k);
  }
  return heated_poles(model, wiring);
}

void add_two_pole(const TwoPole& pole, double a, std::vector<TerminalSlope>& slopes) {
  slopes.push_back({pole.owner_a, pole.a, a});
  slopes.push_back({pole.owner_b, pole.b, -a});
}

void add_three_pole(const ThreePole& pole,
                    double first_a,
                    double second_a,
                    std::vector<TerminalSlope>& slopes) {
  const std::array<double, 3> a{first_a, second_a, -(first_a + second_a)};
  for (std::size_t k = 0; k < 3; ++k) {
    slopes.push_back({{pole.part, pole.leads[k]}, pole.points[k], a[k]});
  }
}

/// The lead behind which a field's resistance sits, and how often it is in series there.
struct Inside {
  std::size_t lead;
  double count;
};

std::optional<Inside> inside(const Part& part, const std::string& field) {
  if (field == "collector_resistance" || field == "drain_resistance") return Inside{0, 1.0};
  if (field == "base_resistance") return Inside{1, 1.0};
  if (field == "emitter_resistance" || field == "source_resistance") return Inside{2, 1.0};
  if (field == "series_resistance") {
    return Inside{0, double{1} * std::get<circuit::DiodeDetails>(part.details).junctions};
  }
  return std::nullopt;
}

}  // namespace

ParameterSlopes::ParameterSlopes(const Circuit& circuit,
                                 const System& system,
                                 const Numbers& numbers,
                                 const State& state,
                                 const Work& work)
    : circuit_(circuit),
      system_(system),
      numbers_(numbers),
      state_(state),
      work_(work),
      poles_(poles_of_all_parts(circuit, system.wiring)) {}

void ParameterSlopes::add_conductor(std::size_t conductor,
                                    double ohm_per_unit,
                                    std::vector<TerminalSlope>& slopes) const {
  const TwoPole& pole = system_.wiring.conductors[conductor];
  const double g = numbers_.conductance_s[conductor];
  const double across_v = work_.point_v[at(pole.a)] - work_.point_v[at(pole.b)];
  add_two_pole(pole, -g * g * ohm_per_unit * across_v, slopes);
}

std::vector<TerminalSlope> ParameterSlopes::by_parameter(const Parameter& parameter,
                                                         double temperature_k) const {
  const auto* part = std::get_if<PartId>(&parameter.owner);
  if (part == nullptr) return {};
  return parameter.field == "value" ? by_value(*part)
                                    : by_field(*part, parameter.field, temperature_k);
}

std::vector<TerminalSlope> ParameterSlopes::by_value(PartId id) const {
  const Part& part = circuit_.at(id);
  const HeatedPoles& poles = poles_[id.index];
  std::vector<TerminalSlope> slopes;
  slopes.reserve(terminals_of_most);
  if (part.kind == PartKind::resistor || part.kind == PartKind::thermistor ||
      part.kind == PartKind::load) {
    for (const std::size_t k : poles.conductors) {
      add_conductor(k, 1.0 / (numbers_.conductance_s[k] * part.value), slopes);
    }
  }
  for (const Track& track : system_.wiring.tracks) {
    if (track.part != id) continue;
    const double travel = std::get<circuit::TrimmerDetails>(part.details).travel;
    if (track.stretch_a) add_conductor(*track.stretch_a, travel, slopes);
    if (track.stretch_b) add_conductor(*track.stretch_b, 1.0 - travel, slopes);
  }
  for (std::size_t k = 0; k < system_.wiring.feeds.size(); ++k) {
    const TwoPole& pole = system_.wiring.feeds[k];
    if (pole.owner_a.part != id) continue;
    const auto& compliance_v = numbers_.feeds[k].compliance_v;
    const double across_v = work_.point_v[at(pole.a)] - work_.point_v[at(pole.b)];
    add_two_pole(
        pole,
        compliance_v ? devices::evaluate_feed(1.0, *compliance_v, across_v).current_a : 1.0,
        slopes);
  }
  return slopes;
}

std::optional<std::size_t> ParameterSlopes::resistance_inside(PartId id,
                                                              const std::string& field) const {
  const auto wanted = inside(circuit_.at(id), field);
  for (const std::size_t k : poles_[id.index].conductors) {
    const TwoPole& pole = system_.wiring.conductors[k];
    if (wanted && pole.owner_a.lead == wanted->lead && !pole.owner_b.lead) return k;
  }
  return std::nullopt;
}

std::vector<TerminalSlope> ParameterSlopes::by_field(PartId id,
                                                     const std::string& field,
                                                     double temperature_k) const {
  const Part& part = circuit_.at(id);
  std::vector<TerminalSlope> slopes;
  slopes.reserve(terminals_of_most);
  if (const auto wanted = inside(part, field)) {
    if (const auto k = resistance_inside(id, field)) add_conductor(*k, wanted->count, slopes);
    return slopes;
  }
  const double sign = circuit::is_p_kind(part.kind) ? -1.0 : 1.0;
  const LawSlopes law(circuit_, part, field, temperature_k);
  for (const std::size_t k : poles_[id.index].bipolars) {
    const auto [collector_a, base_a] = law.bipolar(state_.bipolar_v[k][0], state_.bipolar_v[k][1]);
    add_three_pole(system_.wiring.bipolars[k], sign * collector_a, sign * base_a, slopes);
  }
  for (const std::size_t k : poles_[id.index].fets) {
    const auto [ugs_v, ugd_v] = state_.fet_v[k];
    const double uds_v = (ugs_v - ugd_v) / numbers_.fets[k].at.slope_factor;
    add_three_pole(system_.wiring.fets[k], sign * law.channel(ugs_v, uds_v), 0.0, slopes);
  }
  for (const std::size_t k : poles_[id.index].diodes) {
    add_two_pole(system_.wiring.diodes[k], law.junction(state_.diode_v[k]), slopes);
  }
  return slopes;
}

std::vector<TerminalSlope> ParameterSlopes::by_temperature(PartId id, double temperature_k) const {
  const Part& part = circuit_.at(id);
  if (part.kind != PartKind::resistor) {
    return heat_slopes(
               circuit_, id, poles_[id.index], temperature_k, system_, numbers_, state_, work_)
        .terminals;
  }
  std::vector<TerminalSlope> slopes;
  const double tempco_per_k = std::get<circuit::ResistorDetails>(part.details).tempco_per_k;
  const double ohm_per_k =
      devices::resistor_resistance(part.value, tempco_per_k, temperature_k).ohm_per_k;
  for (const std::size_t k : poles_[id.index].conductors) add_conductor(k, ohm_per_k, slopes);
  return slopes;
}

std::optional<std::size_t> ParameterSlopes::ideal_of(const Parameter& parameter) const {
  if (const auto* rail = std::get_if<circuit::RailId>(&parameter.owner)) {
    return system_.wiring.rail_sources[rail->index];
  }
  const PartId id = std::get<PartId>(parameter.owner);
  if (circuit_.at(id).kind != PartKind::hold) return std::nullopt;
  const auto& ideals = system_.wiring.ideals;
  const auto found = std::find_if(ideals.begin(), ideals.end(), [&](const TwoPole& branch) {
    return branch.owner_a == Owner{id, 0};
  });
  if (found == ideals.end()) return std::nullopt;
  return static_cast<std::size_t>(found - ideals.begin());
}

}  // namespace idlepoint::solve
