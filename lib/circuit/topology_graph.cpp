#include "circuit/topology_graph.hpp"

#include <algorithm>
#include <boost/graph/adjacency_list.hpp>
#include <boost/graph/breadth_first_search.hpp>
#include <boost/graph/connected_components.hpp>
#include <boost/pending/disjoint_sets.hpp>
#include <map>

namespace idlepoint::circuit {
namespace {

using Graph = boost::adjacency_list<boost::vecS,
                                    boost::vecS,
                                    boost::undirectedS,
                                    boost::no_property,
                                    boost::property<boost::edge_index_t, std::size_t>>;

/// Emitter resistors and the like; larger ones set currents.
constexpr double close_ohm = 10.0;

Graph graph_of(std::size_t node_count, const std::vector<Branch>& branches) {
  Graph graph(node_count);
  for (std::size_t index = 0; index < branches.size(); ++index) {
    boost::add_edge(branches[index].a.index, branches[index].b.index, index, graph);
  }
  return graph;
}

bool carries_current(PartKind kind, std::size_t lead) {
  if (kind == PartKind::capacitor || kind == PartKind::feed) return false;
  return !(is_transistor(kind) && lead == 1);
}

bool is_few_ohms(const Part& part) {
  switch (part.kind) {
    case PartKind::resistor:
      return part.value <= close_ohm;
    case PartKind::inductor:
    case PartKind::fuse:
    case PartKind::link:
      return true;
    default:
      return false;
  }
}

/// Joins the conducting leads of each part to the first of them.
std::vector<Branch> conducting_branches(const Circuit& circuit) {
  std::vector<Branch> branches;
  for (const Part& part : circuit.parts) {
    std::optional<NodeId> first;
    for (std::size_t index = 0; index < part.leads.size(); ++index) {
      if (!part.leads[index] || !carries_current(part.kind, index)) continue;
      if (first) branches.push_back({*first, *part.leads[index]});
      if (!first) first = part.leads[index];
    }
  }
  return branches;
}

std::vector<Branch> close_branches(const Circuit& circuit) {
  std::vector<Branch> branches;
  for (const Part& part : circuit.parts) {
    if (!is_few_ohms(part) || !lead(part, 0) || !lead(part, 1)) continue;
    branches.push_back({*lead(part, 0), *lead(part, 1)});
  }
  return branches;
}

std::vector<Supply> supplies_of(const Circuit& circuit) {
  std::vector<Supply> supplies = {{.node = ground, .volts = 0.0, .rail = std::nullopt}};
  for (std::size_t index = 0; index < circuit.rails.size(); ++index) {
    const Rail& rail = circuit.rails[index];
    supplies.push_back({.node = rail.node, .volts = source_v(rail), .rail = RailId{index}});
  }
  for (const Part& part : circuit.parts) {
    if (part.kind != PartKind::hold || !lead(part, 0) || !lead(part, 1)) continue;
    if (lead(part, 1) == ground) {
      supplies.push_back({.node = *lead(part, 0), .volts = part.value, .rail = std::nullopt});
    } else if (lead(part, 0) == ground) {
      supplies.push_back({.node = *lead(part, 1), .volts = -part.value, .rail = std::nullopt});
    }
  }
  return supplies;
}

std::vector<std::optional<std::size_t>> only_supplies(const Wiring& wiring) {
  std::map<std::size_t, std::vector<std::size_t>> in_group;
  for (std::size_t index = 0; index < wiring.supplies.size(); ++index) {
    in_group[wiring.close_group[wiring.supplies[index].node.index]].push_back(index);
  }
  std::vector<std::optional<std::size_t>> only(wiring.close_group.size());
  for (const auto& [group, supplies] : in_group) {
    if (supplies.size() == 1) only[group] = supplies.front();
  }
  return only;
}

}  // namespace

std::vector<std::size_t> joined_groups(std::size_t node_count,
                                       const std::vector<Branch>& branches) {
  std::vector<std::size_t> groups(node_count);
  boost::connected_components(graph_of(node_count, branches), groups.data());
  return groups;
}

std::vector<std::size_t> way_between(std::size_t node_count,
                                     const std::vector<Branch>& branches,
                                     NodeId from,
                                     NodeId to) {
  const Graph graph = graph_of(node_count, branches);
  std::vector<std::optional<Graph::edge_descriptor>> came_by(node_count);
  const auto record = boost::make_bfs_visitor(boost::record_edge_predecessors(
      boost::make_iterator_property_map(came_by.begin(), get(boost::vertex_index, graph)),
      boost::on_tree_edge()));
  boost::breadth_first_search(graph, from.index, boost::visitor(record));

  std::vector<std::size_t> way;
  std::size_t here = to.index;
  while (here != from.index && came_by[here]) {
    way.push_back(get(boost::edge_index, graph, *came_by[here]));
    const Branch& branch = branches[way.back()];
    here = branch.a.index == here ? branch.b.index : branch.a.index;
  }
  if (here != from.index) return {};
  std::ranges::reverse(way);
  return way;
}

std::vector<std::size_t> loop_closers(std::size_t node_count, const std::vector<Branch>& branches) {
  std::vector<std::size_t> rank(node_count);
  std::vector<std::size_t> parent(node_count);
  boost::disjoint_sets sets(rank.data(), parent.data());
  for (std::size_t node = 0; node < node_count; ++node) sets.make_set(node);
  std::vector<std::size_t> closers;
  for (std::size_t index = 0; index < branches.size(); ++index) {
    const std::size_t a = sets.find_set(branches[index].a.index);
    const std::size_t b = sets.find_set(branches[index].b.index);
    if (a == b) closers.push_back(index);
    if (a != b) sets.link(a, b);
  }
  return closers;
}

Wiring trace_wiring(const Circuit& circuit) {
  const std::size_t node_count = circuit.nodes.size();
  Wiring wiring;
  wiring.leads_at.resize(node_count);
  for (std::size_t index = 0; index < circuit.parts.size(); ++index) {
    const Part& part = circuit.parts[index];
    for (std::size_t which = 0; which < part.leads.size(); ++which) {
      if (!part.leads[which]) continue;
      wiring.leads_at[part.leads[which]->index].push_back({PartId{index}, which});
    }
  }
  wiring.has_rail.resize(node_count, false);
  for (const Rail& rail : circuit.rails) wiring.has_rail[rail.node.index] = true;
  wiring.conducting_group = joined_groups(node_count, conducting_branches(circuit));
  wiring.close_group = joined_groups(node_count, close_branches(circuit));
  wiring.supplies = supplies_of(circuit);
  wiring.supply_of_group = only_supplies(wiring);
  wiring.output = output_node(circuit);
  return wiring;
}

const Supply* supply_near(const Wiring& wiring, std::optional<NodeId> node) {
  if (!node) return nullptr;
  const auto supply = wiring.supply_of_group[wiring.close_group[node->index]];
  return supply ? &wiring.supplies[*supply] : nullptr;
}

bool is_close(const Wiring& wiring, std::optional<NodeId> one, std::optional<NodeId> other) {
  return one && other && wiring.close_group[one->index] == wiring.close_group[other->index];
}

}  // namespace idlepoint::circuit
