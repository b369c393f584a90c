#include "circuit/topology_words.hpp"

#include <fmt/format.h>

#include <cctype>
#include <utility>
#include <vector>

#include "complaints/nearest.hpp"

namespace idlepoint::circuit {
namespace {

std::string without_figures(const std::string& name) {
  std::string letters;
  for (const char letter : name) {
    if (letter < '0' || letter > '9') letters += letter;
  }
  return letters;
}

}  // namespace

complaints::Place with_remark(complaints::Place place, std::string remark) {
  place.remark = std::move(remark);
  return place;
}

complaints::Place place_of_lead(const Part& part, std::size_t lead, std::string remark) {
  const bool is_known = lead < part.lead_places.size() && part.lead_places[lead].line > 0;
  return with_remark(is_known ? part.lead_places[lead] : part.place, std::move(remark));
}

std::string quote(const Circuit& circuit, NodeId node) {
  const std::string& name = circuit.at(node).name;
  if (name.find('.') != std::string::npos) return node_in_words(circuit, node);
  return fmt::format("`{}`", name);
}

std::string lead_of_part(const Part& part, std::size_t lead) {
  return fmt::format("the {} of {}", lead_in_words(part.kind, lead), part.name);
}

std::optional<NodeId> likely_meant(const Circuit& circuit, NodeId node) {
  const std::string& written = circuit.at(node).name;
  if (written.find('.') != std::string::npos) return std::nullopt;
  std::vector<std::string> known;
  for (const Node& other : circuit.nodes) {
    if (other.lifted || other.name.find('.') != std::string::npos) continue;
    if (without_figures(other.name) != without_figures(written)) known.push_back(other.name);
  }
  const auto nearest = complaints::nearest_name(written, known);
  return nearest ? find_node(circuit, *nearest) : std::nullopt;
}

}  // namespace idlepoint::circuit
