#include "answers/off_suspects.hpp"

#include <algorithm>
#include <cmath>
#include <utility>
#include <variant>

#include "answers/fault_odds.hpp"
#include "answers/hazards.hpp"
#include "circuit/power_off.hpp"
#include "solve/solve_stage.hpp"

namespace idlepoint::answers {
namespace {

using circuit::CheckedCircuit;
using circuit::Circuit;
using circuit::Edit;
using circuit::Part;
using circuit::PartId;
using circuit::PartKind;

/// A sound stage with the meter on it: what its branches carry and stand at.
struct Measured {
  std::size_t range = 0;
  solve::OperatingPoint state;
  double test_a = 0.0;  ///< Into the stage, by the red lead.
  double test_v = 0.0;
  double share = 0.0;  ///< Of these: what carries or stands at less cannot be told.
};

/// Half of the step that a meter could tell: the bound holds for resistances, junctions bend.
double least_share(const OffFigure& sound) {
  constexpr double prudence = 0.5;
  double band = 0.0;
  if (sound.value && sound.low && sound.high && *sound.value > 0.0) {
    band = 0.5 * (*sound.high - *sound.low) / *sound.value;
  }
  return prudence * std::min(0.2, off_meter_share + band);
}

std::vector<Measured> measure(const CheckedCircuit& off,
                              const circuit::VoltsBetween& points,
                              const ByRange<OffFigure>& sound,
                              const solve::Conditions& conditions) {
  std::vector<Measured> found;
  for (std::size_t k = 0; k < every_off_range.size(); ++k) {
    const OffRange range = every_off_range[k];
    const auto metered = with_off_meter(off, points, range);
    auto outcome = solve::solve_cold(metered.stage, conditions);
    auto* state = std::get_if<solve::OperatingPoint>(&outcome);
    if (state == nullptr) continue;
    const auto& held = metered.meter.points;
    const double volts = state->voltage_v(held.a) - state->voltage_v(held.b);
    double amps = circuit::ohms_range_a;
    if (metered.meter.across) amps -= state->part(*metered.meter.across).lead_current_a[0];
    if (metered.meter.limiter) amps -= state->part(*metered.meter.limiter).lead_current_a[1];
    found.push_back({k, std::move(*state), amps, volts, least_share(sound[k])});
  }
  return found;
}

/// Whether an edit can matter at all, by the shares that off_suspects.hpp tells of.
class CanMatter {
 public:
  CanMatter(const Circuit& circuit, const Measured& measured)
      : circuit_(circuit), measured_(measured) {}

  bool operator()(const circuit::OpenPart& edit) const { return carries(edit.part); }
  bool operator()(const circuit::SetValue& edit) const { return carries(edit.part); }
  bool operator()(const circuit::OpenLead& edit) const { return carries(edit.part, edit.lead); }
  bool operator()(const circuit::LiftWiper& edit) const { return carries(edit.part, 1); }
  bool operator()(const circuit::ShortPart& edit) const { return parts_stand(edit.part, 0, 1); }
  bool operator()(const circuit::ShortLeads& edit) const {
    return parts_stand(edit.part, edit.lead_1, edit.lead_2);
  }
  bool operator()(const circuit::Leak& edit) const {
    return parts_stand(edit.part, edit.lead_1, edit.lead_2);
  }
  bool operator()(const auto&) const { return true; }

 private:
  static constexpr double least_a = 1e-9;   // a display's last digit, at 20 megohm
  static constexpr double least_v = 10e-6;  // and at 10 milliohm

  [[nodiscard]] bool carries(PartId part, std::size_t lead) const {
    const double amps = measured_.state.part(part).lead_current_a.at(lead);
    return std::abs(amps) > measured_.share * std::max(measured_.test_a, least_a);
  }
  [[nodiscard]] bool carries(PartId part) const {
    const auto& leads = measured_.state.part(part).lead_current_a;
    for (std::size_t lead = 0; lead < leads.size(); ++lead) {
      if (carries(part, lead)) return true;
    }
    return false;
  }
  [[nodiscard]] bool parts_stand(PartId id, std::size_t lead_1, std::size_t lead_2) const {
    const auto one = circuit::lead(circuit_.at(id), lead_1);
    const auto other = circuit::lead(circuit_.at(id), lead_2);
    if (!one || !other) return false;
    const double volts = measured_.state.voltage_v(*one) - measured_.state.voltage_v(*other);
    return std::abs(volts) > measured_.share * std::max(measured_.test_v, least_v);
  }

  const Circuit& circuit_;
  const Measured& measured_;
};

ByRange<bool> where_it_can_matter(const Circuit& circuit,
                                  const std::vector<Measured>& all,
                                  const Edit& edit) {
  ByRange<bool> can{};
  for (const Measured& one : all) can[one.range] = std::visit(CanMatter(circuit, one), edit);
  return can;
}

/// [nodes] volts.
ByRange<std::vector<double>> where_nodes_stand(const Circuit& circuit,
                                               const std::vector<Measured>& all) {
  ByRange<std::vector<double>> node_v;
  for (const Measured& one : all) {
    for (std::size_t index = 0; index < circuit.nodes.size(); ++index) {
      node_v[one.range].push_back(one.state.voltage_v(circuit::NodeId{index}));
    }
  }
  return node_v;
}

bool any_of(const ByRange<bool>& each) {
  return std::any_of(each.begin(), each.end(), [](bool is) { return is; });
}

/// 1 where the display shows something quite different, less for a small step and where junctions'
/// leakage alone is read.
double clearness(const OffSuspect& suspect, const ByRange<OffFigure>& sound) {
  constexpr double leakage_ohm = 1e6;
  constexpr double hardly = 0.2;
  double clearest = 0.0;
  for (std::size_t k = 0; k < sound.size(); ++k) {
    if (!suspect.tells[k]) continue;
    double clear = 1.0;
    if (sound[k].value && suspect.reads[k]) {
      const double step = std::abs(*suspect.reads[k] - *sound[k].value);
      clear = std::min(1.0, 2.0 * step / std::max({*suspect.reads[k], *sound[k].value, 1e-9}));
    }
    const double lowest = std::min(sound[k].value.value_or(circuit::ohms_are_open_ohm),
                                   suspect.reads[k].value_or(circuit::ohms_are_open_ohm));
    if (is_ohms(every_off_range[k]) && lowest > leakage_ohm) clear *= hardly;
    clearest = std::max(clearest, clear);
  }
  return clearest;
}

struct PartOf {
  std::optional<PartId> operator()(const circuit::Bridge&) const { return std::nullopt; }
  std::optional<PartId> operator()(const circuit::LoseRail&) const { return std::nullopt; }
  std::optional<PartId> operator()(const auto& edit) const { return edit.part; }
};

/// The two leads of three that an edit joins.
struct JoinedLeads {
  using Pair = std::optional<std::pair<std::size_t, std::size_t>>;
  Pair operator()(const circuit::ShortLeads& edit) const { return {{edit.lead_1, edit.lead_2}}; }
  Pair operator()(const circuit::Leak& edit) const { return {{edit.lead_1, edit.lead_2}}; }
  Pair operator()(const auto&) const { return std::nullopt; }
};

/// A part is suspected first where the meter lies right across it, or across what it may join.
double nearness(const Circuit& circuit, const Edit& edit, const circuit::VoltsBetween& points) {
  constexpr double right_across = 5.0;
  constexpr double across_another_pair = 3.0;
  const auto id = std::visit(PartOf{}, edit);
  if (!id) return 1.0;
  const auto& leads = circuit.at(*id).leads;
  const auto meets = [&](circuit::NodeId node) {
    return std::any_of(
        leads.begin(), leads.end(), [node](const auto& lead) { return lead == node; });
  };
  if (!meets(points.a) || !meets(points.b)) return 1.0;
  const auto joined = std::visit(JoinedLeads{}, edit);
  if (!joined) return right_across;
  const auto one = circuit::lead(circuit.at(*id), joined->first);
  const auto other = circuit::lead(circuit.at(*id), joined->second);
  const bool is_this_pair =
      (one == points.a && other == points.b) || (one == points.b && other == points.a);
  return is_this_pair ? right_across : across_another_pair;
}

void add_leaks(const Part& part, PartId id, std::vector<Edit>& edits) {
  const bool leaks = part.kind == PartKind::capacitor || circuit::has_type(part.kind);
  if (!leaks || part.damage.absent || part.damage.is_link) return;
  const std::size_t from = 0;  // collector, drain, anode
  for (std::size_t lead = 1; lead < part.leads.size(); ++lead) {
    const auto a = circuit::lead(part, from);
    const auto b = circuit::lead(part, lead);
    if (a && b && *a != *b) edits.emplace_back(circuit::Leak{id, from, lead, usual_leak_ohm});
  }
}

/// The row of fault_odds that an edit belongs to, and how many such edits share its weight.
class Row {
 public:
  struct Share {
    FaultKind kind;
    double of = 1.0;
  };
  explicit Row(const Circuit& circuit) : circuit_(circuit) {}

  std::optional<Share> operator()(const circuit::OpenPart&) const { return {{FaultKind::open}}; }
  std::optional<Share> operator()(const circuit::ShortPart&) const {
    return {{FaultKind::shorted}};
  }
  std::optional<Share> operator()(const circuit::ShortLeads&) const {
    return {{FaultKind::shorted, 3.0}};
  }
  std::optional<Share> operator()(const circuit::OpenLead&) const {
    return {{FaultKind::lead_off, 3.0}};
  }
  std::optional<Share> operator()(const circuit::LiftWiper&) const {
    return {{FaultKind::wiper_lifted}};
  }
  std::optional<Share> operator()(const circuit::SetValue&) const {
    return {{FaultKind::drifted, 2.0}};
  }
  std::optional<Share> operator()(const circuit::Leak& edit) const {
    return {{FaultKind::leaks, static_cast<double>(circuit_.at(edit.part).leads.size()) - 1.0}};
  }
  std::optional<Share> operator()(const auto&) const { return std::nullopt; }

 private:
  const Circuit& circuit_;
};

}  // namespace

std::vector<Edit> off_faults(const Circuit& circuit) {
  std::vector<Edit> edits = faults_to_try(circuit);
  for (std::size_t index = 0; index < circuit.parts.size(); ++index) {
    add_leaks(circuit.parts[index], PartId{index}, edits);
  }
  return edits;
}

double usual_odds(const Circuit& circuit, const Edit& edit) {
  constexpr double hardly_ever = 0.01;
  const auto part = std::visit(PartOf{}, edit);
  const auto row = std::visit(Row(circuit), edit);
  if (!part || !row) return hardly_ever;
  const auto weight = fault_weight(class_of(circuit, *part), row->kind);
  return weight ? *weight / row->of : hardly_ever;
}

std::vector<OffSuspect> off_suspects(const CheckedCircuit& stage,
                                     const std::vector<Edit>& faults,
                                     const circuit::VoltsBetween& points,
                                     const ByRange<OffFigure>& sound,
                                     const solve::Conditions& conditions) {
  const auto off = circuit::power_off(stage);
  const auto measured = measure(off, points, sound, conditions);
  const auto near_v = where_nodes_stand(*off, measured);
  std::vector<OffSuspect> suspects;
  for (const Edit& edit : faults) {
    const auto can = where_it_can_matter(*off, measured, edit);
    if (!any_of(can)) continue;
    const auto applied = circuit::apply(off, edit);
    const auto* faulty = std::get_if<CheckedCircuit>(&applied);
    if (faulty == nullptr) continue;
    OffSuspect suspect{circuit::write_fault(*stage, edit), usual_odds(*stage, edit)};
    for (std::size_t k = 0; k < sound.size(); ++k) suspect.reads[k] = sound[k].value;
    if (!find_off_values(*faulty, points, conditions, can, near_v, suspect.reads)) continue;
    for (std::size_t k = 0; k < sound.size(); ++k) {
      suspect.tells[k] = can_tell(every_off_range[k], sound[k], suspect.reads[k]);
    }
    if (!any_of(suspect.tells)) continue;
    suspect.rank = suspect.odds * clearness(suspect, sound) * nearness(*off, edit, points);
    suspects.push_back(std::move(suspect));
  }
  std::stable_sort(suspects.begin(), suspects.end(), [](const auto& one, const auto& other) {
    return one.rank > other.rank;
  });
  return suspects;
}

}  // namespace idlepoint::answers
