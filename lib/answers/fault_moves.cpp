#include "answers/fault_moves.hpp"

#include "devices/bipolar.hpp"
#include "values/constants.hpp"

namespace idlepoint::answers {
namespace {

using circuit::NodeId;
using circuit::Part;
using circuit::PartId;

// The law gives 1 uA at 60 mV below the breakdown voltage (docs/models.md).
constexpr double conducts_before_breakdown_v = 0.06;

double sign_of(const Part& part) { return circuit::is_p_kind(part.kind) ? -1.0 : 1.0; }

std::optional<double> across(const StageState& stage,
                             const Part& part,
                             std::size_t a,
                             std::size_t b) {
  const auto node_a = circuit::lead(part, a);
  const auto node_b = circuit::lead(part, b);
  if (!node_a || !node_b) return std::nullopt;
  return stage.state.voltage_v(*node_a) - stage.state.voltage_v(*node_b);
}

double lead_current_a(const StageState& stage, PartId part, std::size_t lead) {
  if (part.index >= stage.circuit.parts.size()) return 0.0;
  const auto& currents = stage.state.part(part).lead_current_a;
  return lead < currents.size() ? currents[lead] : 0.0;
}

double into_node(const StageState& stage, PartId part, NodeId node) {
  if (part.index >= stage.circuit.parts.size()) return 0.0;
  const auto& leads = stage.circuit.at(part).leads;
  double sum_a = 0.0;
  for (std::size_t lead = 0; lead < leads.size(); ++lead) {
    if (leads[lead] == node) sum_a -= lead_current_a(stage, part, lead);
  }
  return sum_a;
}

std::optional<solve::Conduction> region(const StageState& stage, PartId part) {
  if (part.index >= stage.circuit.parts.size()) return std::nullopt;
  return stage.state.part(part).conduction;
}

}  // namespace

std::optional<double> base_backwards_v(const StageState& stage, PartId id) {
  if (id.index >= stage.circuit.parts.size()) return std::nullopt;
  const Part& part = stage.circuit.at(id);
  if (!circuit::is_bipolar(part.kind) || part.damage.absent) return std::nullopt;
  const auto emitter_to_base = across(stage, part, 2, 1);
  if (!emitter_to_base) return std::nullopt;
  return sign_of(part) * *emitter_to_base;
}

bool is_broken_down(const StageState& stage, PartId id) {
  const auto backwards = base_backwards_v(stage, id);
  if (!backwards) return false;
  const Part& part = stage.circuit.at(id);
  const auto& law = std::get<devices::BipolarData>(stage.circuit.at(*part.type).law);
  const auto& breakdown_v = law.emitter_base_breakdown_voltage_v;
  return breakdown_v && *backwards > *breakdown_v - conducts_before_breakdown_v;
}

Change Moves::volts(NodeId node) const {
  const double now_v = faulty_.state.voltage_v(node);
  if (node.index < sound_.circuit.nodes.size()) return {sound_.state.voltage_v(node), now_v};
  // A node of one lifted lead: it stood where that lead stood.
  for (std::size_t index = 0; index < sound_.circuit.parts.size(); ++index) {
    const auto& leads = faulty_.circuit.parts[index].leads;
    for (std::size_t lead = 0; lead < leads.size(); ++lead) {
      const auto before = circuit::lead(sound_.circuit.parts[index], lead);
      if (leads[lead] == node && before) return {sound_.state.voltage_v(*before), now_v};
    }
  }
  return {now_v, now_v};
}

std::optional<Change> Moves::across_v(PartId id, std::size_t lead_1, std::size_t lead_2) const {
  const Part& part = faulty_.circuit.at(id);
  const auto now = across(faulty_, part, lead_1, lead_2);
  const bool was_there = id.index < sound_.circuit.parts.size();
  // A bridge joins two nodes that were there before it.
  const auto was = across(sound_, was_there ? sound_.circuit.at(id) : part, lead_1, lead_2);
  if (!now || !was) return std::nullopt;
  return Change{*was, *now};
}

Change Moves::lead_a(PartId part, std::size_t lead) const {
  return {lead_current_a(sound_, part, lead), lead_current_a(faulty_, part, lead)};
}

Change Moves::into_node_a(PartId part, NodeId node) const {
  return {into_node(sound_, part, node), into_node(faulty_, part, node)};
}

Change Moves::main_a(PartId id) const {
  const Part& part = faulty_.circuit.at(id);
  const std::size_t lead = part.kind == circuit::PartKind::trimmer ? 1 : 0;
  const Change raw = lead_a(id, lead);
  const double sign = sign_of(part);
  return {sign * raw.was, sign * raw.now};
}

Change Moves::control_v(PartId id) const {
  const Part& part = faulty_.circuit.at(id);
  const bool is_transistor = circuit::is_transistor(part.kind);
  const auto found = is_transistor ? across_v(id, 1, 2) : across_v(id, 0, 1);
  const double sign = sign_of(part);
  return found ? Change{sign * found->was, sign * found->now} : Change{};
}

Change Moves::junction_c(PartId part) const {
  const double now = values::celsius_from_kelvin(faulty_.state.part(part).junction_k);
  if (part.index >= sound_.circuit.parts.size()) return {now, now};
  return {values::celsius_from_kelvin(sound_.state.part(part).junction_k), now};
}

std::optional<solve::Conduction> Moves::region_before(PartId part) const {
  return region(sound_, part);
}

std::optional<solve::Conduction> Moves::region_now(PartId part) const {
  return region(faulty_, part);
}

bool Moves::breaks_down(PartId part) const {
  return is_broken_down(faulty_, part) && !is_broken_down(sound_, part);
}

}  // namespace idlepoint::answers
