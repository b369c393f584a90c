// Finds legs on their own and islands in the graph of a drawing.
#include "circuit/topology_islands.hpp"

#include <map>
#include <set>

#include "circuit/topology_words.hpp"

namespace idlepoint::circuit {
namespace {

/// More than these are no slip of the pen: then no name is guessed.
constexpr std::size_t most_guesses = 50;

/// The spare leg of a trimmer, tied to its wiper, is no second leg on that point.
bool is_tied_spare(const Circuit& circuit, LeadAt at) {
  const auto* trimmer = std::get_if<TrimmerDetails>(&circuit.at(at.part).details);
  return trimmer && trimmer->spare == SpareLeg::tied && at.lead == 2;
}

std::optional<LeadAt> only_leg(const Circuit& circuit, const Wiring& wiring, NodeId node) {
  const Node& it = circuit.at(node);
  if (node == ground || it.is_socket || it.lifted || wiring.has_rail[node.index]) return {};
  std::vector<LeadAt> legs = wiring.leads_at[node.index];
  std::erase_if(legs, [&](LeadAt at) { return is_tied_spare(circuit, at); });
  if (legs.size() != 1) return {};
  if (circuit.at(legs.front().part).kind == PartKind::capacitor) return {};
  return legs.front();
}

void add_to(Island& island, const Circuit& circuit, const Wiring& wiring, NodeId node) {
  island.nodes.push_back(node);
  for (const LeadAt at : wiring.leads_at[node.index]) {
    const PartKind kind = circuit.at(at.part).kind;
    if (is_base(circuit, at)) island.bases.push_back(at);
    if (kind == PartKind::feed) island.feeds.push_back(at);
    if (kind == PartKind::capacitor) island.has_capacitor = true;
  }
}

}  // namespace

bool is_base(const Circuit& circuit, LeadAt at) {
  return is_transistor(circuit.at(at.part).kind) && at.lead == 1;
}

std::vector<LoneLeg> lone_legs(const Circuit& circuit, const Wiring& wiring) {
  std::vector<LoneLeg> legs;
  for (std::size_t index = 0; index < circuit.nodes.size(); ++index) {
    const auto at = only_leg(circuit, wiring, NodeId{index});
    if (at) legs.push_back({.node = NodeId{index}, .at = *at, .meant = std::nullopt});
  }
  if (legs.size() > most_guesses) return legs;
  for (LoneLeg& leg : legs) leg.meant = likely_meant(circuit, leg.node);
  return legs;
}

std::vector<Island> islands(const Circuit& circuit, const Wiring& wiring) {
  std::set<std::size_t> held = {wiring.conducting_group[ground.index]};
  for (const Rail& rail : circuit.rails) held.insert(wiring.conducting_group[rail.node.index]);
  std::map<std::size_t, std::size_t> position;
  std::vector<Island> found;
  for (std::size_t index = 0; index < circuit.nodes.size(); ++index) {
    const std::size_t group = wiring.conducting_group[index];
    if (held.contains(group) || wiring.leads_at[index].empty()) continue;
    if (circuit.nodes[index].lifted) continue;
    const auto [where, is_new] = position.try_emplace(group, found.size());
    if (is_new) found.emplace_back().group = group;
    add_to(found[where->second], circuit, wiring, NodeId{index});
  }
  std::erase_if(found, [](const Island& island) {
    return island.bases.empty() && island.feeds.empty() && island.has_capacitor;
  });
  return found;
}

}  // namespace idlepoint::circuit
