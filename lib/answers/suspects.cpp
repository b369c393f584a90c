#include "answers/suspects.hpp"

#include <algorithm>
#include <cmath>
#include <set>
#include <utility>

#include "answers/alike_types.hpp"

namespace idlepoint::answers {
namespace {

using circuit::Circuit;
using circuit::Edit;
using circuit::NodeId;
using circuit::Part;
using circuit::PartId;
using Leads = std::pair<std::size_t, std::size_t>;

/// Out of tolerance, up and down; a fault's gain; ohms of a leak.
constexpr double least_drift = 1.25;
constexpr double most_drift_up = 10.0;
constexpr double most_drift_down = 4.0;
constexpr double drift_down_share = 0.2;
constexpr SizeRange lost_gain = {0.05, 0.5};  ///< Times the type's.
constexpr SizeRange transistor_leak = {100.0, 1e6};
constexpr SizeRange capacitor_leak = {50.0, 3e6};

double gain_of(const Circuit& circuit, const Part& part) {
  return std::get<devices::BipolarData>(circuit.at(*part.type).law).gain;
}

/// Where two points are joined, whatever the words.
using Joined = std::pair<std::size_t, std::size_t>;

Joined joined(NodeId a, NodeId b) { return std::minmax(a.index, b.index); }

class Listing {
 public:
  Listing(const Circuit& circuit, const std::vector<PartId>& good) : circuit_(circuit) {
    for (const PartId id : good) good_.insert(id.index);
  }

  std::vector<SuspectedFault> run() {
    for (std::size_t index = 0; index < circuit_.parts.size(); ++index) add_part(PartId{index});
    add_bridges();
    add_pierced_insulators();
    for (std::size_t index = 0; index < circuit_.rails.size(); ++index) {
      if (circuit_.rails[index].lost) continue;
      list_.push_back(
          {circuit::LoseRail{circuit::RailId{index}}, FaultKind::rail_lost, lost_rail_weight});
    }
    return std::move(list_);
  }

 private:
  void add(PartId id, FaultKind kind, Edit edit, double share, std::optional<SizeRange> size = {}) {
    const auto weight = fault_weight(class_of(circuit_, id), kind);
    const bool is_joint = kind == FaultKind::lead_off;
    if (!weight || (good_.contains(id.index) && !is_joint)) return;
    list_.push_back({std::move(edit), kind, share * *weight, size, {}, id});
  }

  void add_part(PartId id) {
    const Part& part = circuit_.at(id);
    if (part.damage.absent || class_of(circuit_, id) == PartClass::none) return;
    add(id, FaultKind::open, circuit::OpenPart{id}, 1.0);
    if (part.leads.size() == 2) {
      add_two_legged(id, part);
    } else {
      add_three_legged(id, part);
    }
    if (part.type) add_types(id, part);
    if (circuit::is_bipolar(part.kind) && !part.damage.gain) {
      const double gain = gain_of(circuit_, part);
      add(id,
          FaultKind::gain_lost,
          circuit::SetGain{id, 0.2 * gain},
          1.0,
          SizeRange{lost_gain.low * gain, lost_gain.high * gain});
    }
  }

  void add_two_legged(PartId id, const Part& part) {
    if (part.damage.is_link || !circuit::lead(part, 0) || !circuit::lead(part, 1)) return;
    if (circuit::lead(part, 0) == circuit::lead(part, 1)) return;
    if (fault_weight(class_of(circuit_, id), FaultKind::shorted)) {
      add_short(id, {0, 1}, circuit::ShortPart{id}, 1.0);
    }
    if (part.kind == circuit::PartKind::resistor || part.kind == circuit::PartKind::thermistor) {
      add_drifts(id, part);
    }
    const auto* capacitor = std::get_if<circuit::CapacitorDetails>(&part.details);
    if (capacitor != nullptr && !capacitor->leakage_ohm) {
      add(id, FaultKind::leaks, circuit::Leak{id, 0, 1, 30e3}, 1.0, capacitor_leak);
    }
    if (part.kind == circuit::PartKind::diode) {
      add(id, FaultKind::leaks, circuit::Leak{id, 0, 1, 30e3}, 1.0, transistor_leak);
      add(id, FaultKind::leads_swapped, circuit::SwapLeads{id, 0, 1}, 1.0);
    }
  }

  void add_drifts(PartId id, const Part& part) {
    if (part.value <= 0.0) return;
    const double r = part.value;
    add(id,
        FaultKind::drifted,
        circuit::SetValue{id, 2.0 * r},
        1.0 - drift_down_share,
        SizeRange{least_drift * r, most_drift_up * r});
    add(id,
        FaultKind::drifted,
        circuit::SetValue{id, 0.5 * r},
        drift_down_share,
        SizeRange{r / most_drift_down, r / least_drift});
  }

  void add_three_legged(PartId id, const Part& part) {
    const bool is_power = class_of(circuit_, id) == PartClass::power_transistor;
    const bool is_trimmer = part.kind == circuit::PartKind::trimmer;
    constexpr std::size_t wiper = 1;
    if (is_trimmer) {
      add_drifts(id, part);
      if (!part.damage.wiper_open) add(id, FaultKind::wiper_lifted, circuit::LiftWiper{id}, 1.0);
      add(id,
          FaultKind::set_elsewhere,
          circuit::SetTravel{id, 0.5},
          1.0,
          SizeRange{0.0, 1.0, false});
    }
    for (std::size_t lead = 0; lead < part.leads.size(); ++lead) {
      if (!circuit::lead(part, lead) || circuit_.at(*circuit::lead(part, lead)).lifted) continue;
      if (is_trimmer && lead == wiper) continue;
      add(id, FaultKind::lead_off, circuit::OpenLead{id, lead}, is_trimmer ? 0.5 : 1.0 / 3.0);
    }
    for (const Leads& pair : {Leads{0, 1}, Leads{0, 2}, Leads{1, 2}}) {
      const auto a = circuit::lead(part, pair.first);
      const auto b = circuit::lead(part, pair.second);
      if (!a || !b || a == b) continue;
      const bool is_main_path = pair == Leads{0, 2} && !is_trimmer;
      add_short(id,
                pair,
                circuit::ShortLeads{id, pair.first, pair.second},
                is_main_path ? (is_power ? 0.8 : 0.6) : (is_power ? 0.1 : 0.2));
      if (is_trimmer) continue;
      if (is_main_path || pair == Leads{0, 1}) {
        add(id,
            FaultKind::leaks,
            circuit::Leak{id, pair.first, pair.second, 30e3},
            is_main_path ? 0.7 : 0.3,
            transistor_leak);
      }
      add(id, FaultKind::leads_swapped, circuit::SwapLeads{id, pair.first, pair.second}, 1.0 / 3.0);
    }
  }

  /// The same points may be joined inside one part or the other, or by solder: one drawing.
  void add_short(PartId id, Leads leads, Edit edit, double share) {
    const Part& part = circuit_.at(id);
    const Joined key =
        joined(*circuit::lead(part, leads.first), *circuit::lead(part, leads.second));
    const auto weight = fault_weight(class_of(circuit_, id), FaultKind::shorted);
    if (!weight || good_.contains(id.index)) return;
    const auto there = std::find_if(
        joins_.begin(), joins_.end(), [&](const auto& one) { return one.first == key; });
    if (there == joins_.end()) {
      joins_.emplace_back(key, list_.size());
      list_.push_back({std::move(edit), FaultKind::shorted, share * *weight, {}, {}, id});
      return;
    }
    SuspectedFault& known = list_[there->second];
    if (share * *weight > known.weight) {
      std::swap(known.edit, edit);
      known.part = id;
    }
    known.same.push_back(std::move(edit));
    known.weight += share * *weight;
  }

  /// Types that their spread makes alike count as one; those like the right one are no fault.
  void add_types(PartId id, const Part& part) {
    const circuit::PartType& own = circuit_.at(*part.type);
    std::vector<std::vector<circuit::TypeId>> alike;
    for (std::size_t index = 0; index < circuit_.types.size(); ++index) {
      const circuit::PartType& type = circuit_.types[index];
      if (type.kind != part.kind || index == part.type->index || reads_like(type, own)) continue;
      const auto known = std::find_if(alike.begin(), alike.end(), [&](const auto& group) {
        return reads_like(type, circuit_.at(group.front()));
      });
      if (known == alike.end()) {
        alike.push_back({circuit::TypeId{index}});
      } else {
        known->push_back(circuit::TypeId{index});
      }
    }
    double types = 0.0;
    for (const auto& group : alike) types += static_cast<double>(group.size());
    for (const auto& group : alike) {
      const std::size_t before = list_.size();
      add(id,
          FaultKind::other_type,
          circuit::SetType{id, group.front()},
          static_cast<double>(group.size()) / types);
      if (list_.size() == before) return;
      for (std::size_t k = 1; k < group.size(); ++k) {
        list_.back().same.emplace_back(circuit::SetType{id, group[k]});
      }
    }
  }

  void add_bridges() {
    std::set<Joined> pairs;
    for (const Part& part : circuit_.parts) {
      if (part.damage.absent || part.kind == circuit::PartKind::link ||
          part.kind == circuit::PartKind::hold || part.kind == circuit::PartKind::feed) {
        continue;
      }
      for (std::size_t one = 0; one < part.leads.size(); ++one) {
        for (std::size_t other = one + 1; other < part.leads.size(); ++other) {
          const auto a = circuit::lead(part, one);
          const auto b = circuit::lead(part, other);
          if (a && b && a != b) pairs.insert(joined(*a, *b));
        }
      }
    }
    for (const Joined& pair : pairs) {
      add_join(pair,
               circuit::Bridge{NodeId{pair.first}, NodeId{pair.second}},
               FaultKind::bridged,
               bridge_weight);
    }
  }

  void add_join(const Joined& pair, const Edit& edit, FaultKind kind, double weight) {
    const auto there = std::find_if(
        joins_.begin(), joins_.end(), [&](const auto& one) { return one.first == pair; });
    if (there == joins_.end()) {
      joins_.emplace_back(pair, list_.size());
      list_.push_back({edit, kind, weight});
      return;
    }
    SuspectedFault& known = list_[there->second];
    known.weight += weight;
    if (known.kind == kind) return;
    known.same.push_back(edit);
  }

  /// The washer is no part of the drawing: what the chassis is joined to is.
  void add_pierced_insulators() {
    for (std::size_t index = 0; index < circuit_.parts.size(); ++index) {
      const Part& part = circuit_.parts[index];
      if (!circuit::is_transistor(part.kind) || part.damage.absent) continue;
      const auto tab = circuit::lead(part, 0);
      const auto weight =
          fault_weight(class_of(circuit_, PartId{index}), FaultKind::insulator_pierced);
      if (!tab || *tab == circuit::ground || !weight) continue;
      add_join(joined(*tab, circuit::ground),
               circuit::Bridge{*tab, circuit::ground},
               FaultKind::insulator_pierced,
               *weight);
    }
  }

  const Circuit& circuit_;
  std::set<std::size_t> good_;
  std::vector<std::pair<Joined, std::size_t>> joins_;  ///< Points joined: index in the list.
  std::vector<SuspectedFault> list_;
};

}  // namespace

double SizeRange::at(double t) const {
  const double share = 0.5 * (1.0 + t);
  if (!is_logarithmic) return low + share * (high - low);
  return low * std::pow(high / low, share);
}

std::vector<SuspectedFault> suspects(const circuit::CheckedCircuit& stage,
                                     const std::vector<PartId>& good) {
  return Listing(*stage, good).run();
}

Edit edit_at(const SuspectedFault& fault, double t) {
  Edit edit = fault.edit;
  if (!fault.size) return edit;
  const double size = fault.size->at(std::clamp(t, -1.0, 1.0));
  if (auto* value = std::get_if<circuit::SetValue>(&edit)) value->value = size;
  if (auto* leak = std::get_if<circuit::Leak>(&edit)) leak->ohm = size;
  if (auto* gain = std::get_if<circuit::SetGain>(&edit)) gain->gain = size;
  if (auto* travel = std::get_if<circuit::SetTravel>(&edit)) travel->travel = size;
  return edit;
}

void set_size(Circuit& circuit, const SuspectedFault& fault, double t) {
  if (!fault.size) return;
  const double size = fault.size->at(std::clamp(t, -1.0, 1.0));
  Part& part = circuit.at(*fault.part);
  if (std::holds_alternative<circuit::SetValue>(fault.edit)) part.value = size;
  if (std::holds_alternative<circuit::SetGain>(fault.edit)) part.damage.gain = size;
  if (std::holds_alternative<circuit::SetTravel>(fault.edit)) {
    std::get<circuit::TrimmerDetails>(part.details).travel = size;
  }
  if (!std::holds_alternative<circuit::Leak>(fault.edit)) return;
  if (auto* capacitor = std::get_if<circuit::CapacitorDetails>(&part.details)) {
    capacitor->leakage_ohm = size;
  } else {
    part.damage.leaks.back().ohm = size;
  }
}

AnswersTo answers_to(FaultKind kind) noexcept {
  switch (kind) {
    case FaultKind::lead_off:
    case FaultKind::wiper_lifted:
    case FaultKind::bridged:
    case FaultKind::open:
      return AnswersTo::tapping;
    case FaultKind::leaks:
    case FaultKind::gain_lost:
      return AnswersTo::warmth;
    default:
      return AnswersTo::nothing;
  }
}

}  // namespace idlepoint::answers
