// Names to ids and back: looking things up in a drawing, and putting them into words.

#include "circuit/circuit.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "circuit/sentence.hpp"

namespace idlepoint::circuit {
namespace {

template <class IdType, class List, class Projection>
std::optional<IdType> find_in(const List& list, const auto& wanted, Projection projection) {
  const auto found = std::ranges::find(list, wanted, projection);
  if (found == list.end()) return std::nullopt;
  return IdType{static_cast<std::size_t>(found - list.begin())};
}

std::string name_of(const Circuit& circuit, PartId part) { return circuit.at(part).name; }

/// A rail goes by the name of its node.
std::string name_of(const Circuit& circuit, RailId rail) {
  return circuit.at(circuit.at(rail).node).name;
}

std::string name_of(const Circuit& circuit, HeatsinkId heatsink) {
  return circuit.at(heatsink).name;
}

std::string name_of_either(const Circuit& circuit, const auto& what) {
  return std::visit([&](auto id) { return name_of(circuit, id); }, what);
}

struct WriteProbe {
  const Circuit& circuit;
  std::string operator()(const VoltsBetween& probe) const {
    return fmt::format("volts {} {}", circuit.at(probe.a).name, circuit.at(probe.b).name);
  }
  std::string operator()(const AmpsThrough& probe) const {
    return "amps " + name_of_either(circuit, probe.what);
  }
  std::string operator()(const WattsIn& probe) const {
    return "watts " + name_of_either(circuit, probe.what);
  }
  std::string operator()(const CelsiusOf& probe) const {
    return "celsius " + name_of_either(circuit, probe.what);
  }
};

/// The part and the lead's words behind a name such as `Q603.c` or `Q603.c (lifted)`.
std::string lead_name_in_words(const Circuit& circuit, std::string_view name) {
  const std::size_t dot = name.find('.');
  const auto part = find_part(circuit, name.substr(0, dot));
  if (!part) return std::string(name);
  const std::string_view lead_name = name.substr(dot + 1, name.find(' ') - dot - 1);
  const PartKind kind = circuit.at(*part).kind;
  const auto names = lead_names(kind);
  const auto found = std::ranges::find(names, lead_name);
  if (found == names.end()) return std::string(name);
  const auto index = static_cast<std::size_t>(found - names.begin());
  return fmt::format("the {} of {}", lead_in_words(kind, index), circuit.at(*part).name);
}

std::vector<std::string> parts_at(const Circuit& circuit, NodeId node) {
  std::vector<std::string> names;
  for (const Part& part : circuit.parts) {
    if (std::ranges::find(part.leads, std::optional(node)) != part.leads.end()) {
      names.push_back(part.name);
    }
  }
  return names;
}

}  // namespace

double source_v(const Rail& rail) noexcept { return rail.measured_v.value_or(rail.nominal_v); }

std::optional<NodeId> find_node(const Circuit& circuit, std::string_view name) {
  return find_in<NodeId>(circuit.nodes, name, &Node::name);
}

std::optional<PartId> find_part(const Circuit& circuit, std::string_view name) {
  return find_in<PartId>(circuit.parts, name, &Part::name);
}

std::optional<TypeId> find_type(const Circuit& circuit, std::string_view name) {
  return find_in<TypeId>(circuit.types, name, &PartType::name);
}

std::optional<RailId> find_rail(const Circuit& circuit, NodeId node) {
  return find_in<RailId>(circuit.rails, node, &Rail::node);
}

std::optional<HeatsinkId> find_heatsink(const Circuit& circuit, std::string_view name) {
  return find_in<HeatsinkId>(circuit.heatsinks, name, &Heatsink::name);
}

std::optional<ReadingId> find_reading(const Circuit& circuit, std::string_view name) {
  return find_in<ReadingId>(circuit.readings, name, &Reading::name);
}

bool can_heat(const Circuit& circuit) {
  return std::ranges::any_of(circuit.parts, [&](const Part& part) {
    if (part.mounting.heatsink) return true;
    return part.type && circuit.at(*part.type).ratings.junction_to_ambient_k_per_w.has_value();
  });
}

std::string write_probe(const Circuit& circuit, const Probe& probe) {
  return std::visit(WriteProbe{circuit}, probe);
}

std::string node_in_words(const Circuit& circuit, NodeId node) {
  const Node& it = circuit.at(node);
  if (it.lifted) return lead_name_in_words(circuit, it.name) + " (lifted)";
  if (it.name.find('.') == std::string::npos) return it.name;
  const std::vector<std::string> parts = parts_at(circuit, node);
  if (parts.size() < 2) return lead_name_in_words(circuit, it.name);
  return "the joint of " + list_words(parts);
}

}  // namespace idlepoint::circuit
