#include "answers/emitter_resistors.hpp"

#include <cmath>
#include <vector>

namespace idlepoint::answers {
namespace {

using circuit::Circuit;
using circuit::NodeId;
using circuit::Part;
using circuit::PartId;
using circuit::PartKind;

constexpr double same_value = 0.01;

bool is_sound_resistor(const Part& part) {
  return part.kind == PartKind::resistor && !part.damage.absent && !part.damage.is_link &&
         circuit::lead(part, 0) && circuit::lead(part, 1);
}

std::optional<NodeId> other_end(const Part& resistor, NodeId end) {
  if (resistor.leads[0] == end) return resistor.leads[1];
  if (resistor.leads[1] == end) return resistor.leads[0];
  return std::nullopt;
}

// A transistor with its emitter or source at the node, if there is one.
const Part* transistor_at(const Circuit& circuit, NodeId node) {
  for (const auto& part : circuit.parts) {
    if (circuit::is_transistor(part.kind) && part.leads.at(circuit::emitter_or_source) == node)
      return &part;
  }
  return nullptr;
}

std::vector<PartId> resistors_at(const Circuit& circuit, NodeId node) {
  std::vector<PartId> found;
  for (std::size_t index = 0; index < circuit.parts.size(); ++index) {
    const auto& part = circuit.parts[index];
    if (is_sound_resistor(part) && other_end(part, node)) found.push_back(PartId{index});
  }
  return found;
}

std::optional<PartId> only_resistor_between(const Circuit& circuit, NodeId a, NodeId b) {
  std::optional<PartId> only;
  for (const PartId id : resistors_at(circuit, a)) {
    if (other_end(circuit.at(id), a) != b) continue;
    if (only) return std::nullopt;
    only = id;
  }
  return only;
}

bool is_small(const Circuit& circuit, PartId id) {
  return circuit.at(id).value <= largest_emitter_resistor_ohm;
}

std::optional<ResistorsRead> both_between(const Circuit& circuit, NodeId a, NodeId b) {
  if (transistor_at(circuit, a) == nullptr || transistor_at(circuit, b) == nullptr) {
    return std::nullopt;
  }
  for (const PartId first : resistors_at(circuit, a)) {
    const auto joint = *other_end(circuit.at(first), a);
    const auto second = only_resistor_between(circuit, joint, b);
    if (joint == b || !second || !is_small(circuit, first) || !is_small(circuit, *second)) continue;
    return ResistorsRead{first, true, second, std::nullopt, true};
  }
  return std::nullopt;
}

// The end of a resistor at which a transistor's emitter or source sits.
const Part* transistor_of(const Circuit& circuit, const Part& resistor) {
  const Part* at_first = transistor_at(circuit, *resistor.leads[0]);
  return at_first != nullptr ? at_first : transistor_at(circuit, *resistor.leads[1]);
}

bool have_common_lead(const Part& one, const Part& other) {
  return other_end(one, *other.leads[0]).has_value() || other_end(one, *other.leads[1]).has_value();
}

bool is_opposite(const Circuit& circuit, const Part& read, const Part& other) {
  if (&other == &read || !is_sound_resistor(other)) return false;
  if (std::abs(other.value - read.value) > same_value * read.value) return false;
  const Part* own = transistor_of(circuit, read);
  const Part* others = transistor_of(circuit, other);
  if (others == nullptr || own == others) return false;
  return !have_common_lead(read, other) ||
         circuit::is_p_kind(own->kind) != circuit::is_p_kind(others->kind);
}

void find_opposite(const Circuit& circuit, ResistorsRead& found) {
  const auto& read = circuit.at(found.first);
  found.is_emitter_resistor =
      is_small(circuit, found.first) && transistor_of(circuit, read) != nullptr;
  if (!found.is_emitter_resistor) return;
  std::optional<PartId> only;
  for (std::size_t index = 0; index < circuit.parts.size(); ++index) {
    if (!is_opposite(circuit, read, circuit.parts[index])) continue;
    if (only) return;  // parallel pairs: which one is opposite is not to be told
    only = PartId{index};
  }
  if (!only) return;
  found.opposite = only;
  found.shares_joint = have_common_lead(read, circuit.at(*only));
}

}  // namespace

std::optional<ResistorsRead> resistors_read(const Circuit& circuit,
                                            const circuit::VoltsBetween& points) {
  if (const auto single = only_resistor_between(circuit, points.a, points.b)) {
    ResistorsRead found{*single, false, std::nullopt, std::nullopt, false};
    find_opposite(circuit, found);
    return found;
  }
  return both_between(circuit, points.a, points.b);
}

}  // namespace idlepoint::answers
