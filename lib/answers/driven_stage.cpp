#include "answers/driven_stage.hpp"

#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace idlepoint::answers {
namespace {

using circuit::Circuit;
using circuit::NodeId;
using circuit::Part;
using circuit::PartKind;

constexpr double keeps_its_charge_f = 0.99e-6;

bool is_still(const Circuit& circuit, NodeId node) {
  return node == circuit::ground || circuit::find_rail(circuit, node).has_value();
}

/// Points that `from` reaches, never through ground, a rail or a point that `stops` names.
class Reach {
 public:
  Reach(const Circuit& circuit, std::vector<bool> stops)
      : circuit_(circuit), stops_(std::move(stops)), reached_(circuit.nodes.size(), false) {}

  /// `through_transistors`: a base and an emitter lead on, to each other and to the collector.
  void follow(NodeId from, bool through_transistors) {
    std::vector<NodeId> to_visit{from};
    reached_[from.index] = true;
    while (!to_visit.empty()) {
      const NodeId here = to_visit.back();
      to_visit.pop_back();
      for (const Part& part : circuit_.parts) {
        if (!leads_on(part, here, through_transistors)) continue;
        for (const auto& next : part.leads) {
          if (!next || reached_[next->index] || stops_[next->index]) continue;
          if (is_still(circuit_, *next)) continue;
          reached_[next->index] = true;
          to_visit.push_back(*next);
        }
      }
    }
  }

  [[nodiscard]] bool has(NodeId node) const { return reached_[node.index]; }
  [[nodiscard]] const std::vector<bool>& nodes() const { return reached_; }

 private:
  static bool leads_on(const Part& part, NodeId here, bool through_transistors) {
    if (part.damage.absent) return false;
    if (circuit::is_transistor(part.kind)) {
      return through_transistors && (circuit::lead(part, circuit::base_or_gate) == here ||
                                     circuit::lead(part, circuit::emitter_or_source) == here);
    }
    if (part.kind == PartKind::capacitor || part.kind == PartKind::feed) return false;
    for (const auto& lead : part.leads) {
      if (lead == here) return true;
    }
    return false;
  }

  const Circuit& circuit_;
  std::vector<bool> stops_;
  std::vector<bool> reached_;
};

/// True where something before the drive point listens at `node`: a transistor's lead.
bool is_listened_to(const Circuit& circuit, const Reach& reach) {
  for (const Part& part : circuit.parts) {
    if (!circuit::is_transistor(part.kind) || part.damage.absent) continue;
    for (const auto& lead : part.leads) {
      if (lead && reach.has(*lead)) return true;
    }
  }
  return false;
}

/// True where nothing but an ideal branch lies between a part's two leads.
bool is_ideal(const Part& part) {
  if (part.damage.absent || part.leads.size() != 2) return false;
  if (part.damage.is_link) return true;
  switch (part.kind) {
    case PartKind::link:
    case PartKind::hold:
      return true;
    case PartKind::resistor:
      return part.value == 0.0;
    case PartKind::inductor:
    case PartKind::fuse:
      return std::get<circuit::SeriesDetails>(part.details).resistance_ohm == 0.0;
    default:
      return false;
  }
}

/// Points whose volts against each other are fixed.
class FixedGroups {
 public:
  explicit FixedGroups(const Circuit& circuit) : group_(circuit.nodes.size()) {
    for (std::size_t index = 0; index < group_.size(); ++index) group_[index] = index;
    for (const auto& rail : circuit.rails) {
      if (rail.resistance_ohm == 0.0 && !rail.lost) (void)join(rail.node, circuit::ground);
    }
    for (const Part& part : circuit.parts) {
      if (!is_ideal(part) || !part.leads[0] || !part.leads[1]) continue;
      (void)join(*part.leads[0], *part.leads[1]);
    }
  }

  /// False where they were joined before.
  bool join(NodeId one, NodeId other) {
    const std::size_t from = group_[one.index];
    const std::size_t into = group_[other.index];
    if (from == into) return false;
    for (auto& group : group_) {
      if (group == from) group = into;
    }
    return true;
  }

 private:
  std::vector<std::size_t> group_;
};

class Driving {
 public:
  Driving(const Circuit& before, const solve::OperatingPoint& rest, Circuit& after)
      : before_(before),
        rest_(rest),
        after_(after),
        drive_(*before.signal.drive),
        output_(*circuit::output_node(before)),
        half_(before, only(output_)),
        fixed_(before) {
    half_.follow(drive_, true);
  }

  circuit::PartId run() {
    for (std::size_t index = 0; index < before_.parts.size(); ++index) {
      const circuit::PartId id{index};
      if (before_.at(id).damage.absent) continue;
      if (before_.at(id).kind == PartKind::capacitor) keep_charge(id);
      if (before_.at(id).kind == PartKind::hold) give_current(id);
    }
    cut_feedback();
    add("drive source, inside", PartKind::resistor, drive_, circuit::ground, drive_source_ohm)
        .details = circuit::ResistorDetails{};
    add("drive source", PartKind::feed, circuit::ground, drive_, rest_.voltage_v(drive_)).details =
        circuit::FeedDetails{std::nullopt};
    return circuit::PartId{after_.parts.size() - 1};
  }

 private:
  [[nodiscard]] std::vector<bool> only(NodeId node) const {
    std::vector<bool> nodes(before_.nodes.size(), false);
    nodes[node.index] = true;
    return nodes;
  }

  Part& add(std::string name, PartKind kind, NodeId a, NodeId b, double value) {
    Part part;
    part.name = std::move(name);
    part.kind = kind;
    part.leads = {a, b};
    part.value = value;
    after_.parts.push_back(std::move(part));
    return after_.parts.back();
  }

  NodeId new_node(const std::string& name) {
    circuit::Node node;
    node.name = name;
    after_.nodes.push_back(std::move(node));
    return NodeId{after_.nodes.size() - 1};
  }

  void keep_charge(circuit::PartId id) {
    const Part& part = before_.at(id);
    const auto a = circuit::lead(part, 0);
    const auto b = circuit::lead(part, 1);
    if (part.value < keeps_its_charge_f || part.damage.is_link || !a || !b || *a == *b) return;
    if (!fixed_.join(*a, *b)) return;  // others fix its volts: no loop of ideal branches
    add(part.name + ", charged", PartKind::hold, *a, *b, rest_.voltage_v(*a) - rest_.voltage_v(*b));
  }

  void give_current(circuit::PartId id) {
    const auto a = circuit::lead(before_.at(id), 0);
    const auto b = circuit::lead(before_.at(id), 1);
    if (!a || !b) return;
    const bool moves =
        (is_still(before_, *b) && half_.has(*a)) || (is_still(before_, *a) && half_.has(*b));
    if (!moves) return;
    after_.at(id).damage.absent = true;
    add(before_.at(id).name + ", as a current",
        PartKind::feed,
        *a,
        *b,
        rest_.part(id).lead_current_a.at(0))
        .details = circuit::FeedDetails{std::nullopt};
  }

  void cut_feedback() {
    std::optional<NodeId> at_rest;
    for (std::size_t index = 0; index < before_.parts.size(); ++index) {
      const Part& part = before_.parts[index];
      if (circuit::is_transistor(part.kind) || part.kind == PartKind::capacitor) continue;
      for (std::size_t lead = 0; lead < part.leads.size(); ++lead) {
        if (part.leads[lead] != output_ || !listens(part, lead)) continue;
        if (!at_rest) {
          at_rest = new_node("output at rest");
          add("output at rest",
              PartKind::hold,
              *at_rest,
              circuit::ground,
              rest_.voltage_v(output_));
        }
        after_.parts[index].leads[lead] = at_rest;
      }
    }
  }

  /// A part at the output whose other end belongs to what stands before the drive point.
  [[nodiscard]] bool listens(const Part& part, std::size_t at_output) const {
    for (std::size_t lead = 0; lead < part.leads.size(); ++lead) {
      const auto other = part.leads[lead];
      if (lead == at_output || !other || *other == output_ || half_.has(*other)) continue;
      if (is_still(before_, *other)) continue;
      std::vector<bool> stops = half_.nodes();
      stops[output_.index] = true;
      Reach behind(before_, std::move(stops));
      behind.follow(*other, false);
      if (is_listened_to(before_, behind)) return true;
    }
    return false;
  }

  const Circuit& before_;
  const solve::OperatingPoint& rest_;
  Circuit& after_;
  NodeId drive_;
  NodeId output_;
  Reach half_;
  FixedGroups fixed_;
};

}  // namespace

DrivenStage drive_by_hand(const circuit::CheckedCircuit& stage, const solve::OperatingPoint& rest) {
  circuit::PartId source;
  auto driven =
      stage.edited([&](Circuit& circuit) { source = Driving(*stage, rest, circuit).run(); });
  return {std::move(driven), source, *stage->signal.drive, *circuit::output_node(*stage)};
}

}  // namespace idlepoint::answers
