// Voltages that contradict each other: rails joined by wires, loops of ideal sources.
#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <variant>

#include "circuit/sentence.hpp"
#include "circuit/topology_checks.hpp"
#include "circuit/topology_words.hpp"

namespace idlepoint::circuit {
namespace {

/// Loops are told one by one; beyond these the drawing has another trouble.
constexpr std::size_t most_loops = 20;

/// Branches without resistance, each with what it is.
struct IdealBranches {
  std::vector<Branch> branches;
  std::vector<std::variant<PartId, RailId>> what;

  void add(NodeId a, NodeId b, std::variant<PartId, RailId> origin) {
    if (a == b) return;
    branches.push_back({a, b});
    what.push_back(origin);
  }
};

bool has_no_resistance(const Part& part) {
  if (part.kind == PartKind::link) return true;
  if (part.kind == PartKind::resistor) return part.value == 0.0;
  const auto* series = std::get_if<SeriesDetails>(&part.details);
  return series && series->resistance_ohm == 0.0;
}

void add_parts(const Circuit& circuit, IdealBranches& ideal, auto is_wanted) {
  for (std::size_t index = 0; index < circuit.parts.size(); ++index) {
    const Part& part = circuit.parts[index];
    if (!is_wanted(part) || !lead(part, 0) || !lead(part, 1)) continue;
    ideal.add(*lead(part, 0), *lead(part, 1), PartId{index});
  }
}

complaints::Place place_of(const Circuit& circuit, const std::variant<PartId, RailId>& what) {
  if (const auto* rail = std::get_if<RailId>(&what)) {
    const NodeId node = circuit.at(*rail).node;
    return with_remark(circuit.at(*rail).place, fmt::format("the rail {}", quote(circuit, node)));
  }
  const Part& part = circuit.at(std::get<PartId>(what));
  const char* remark =
      part.kind == PartKind::hold ? "holds {} against {}" : "0 ohms between {} and {}";
  return with_remark(
      part.place,
      fmt::format(
          fmt::runtime(remark), quote(circuit, *lead(part, 0)), quote(circuit, *lead(part, 1))));
}

std::string name_of(const Circuit& circuit, const std::variant<PartId, RailId>& what) {
  if (const auto* part = std::get_if<PartId>(&what)) return circuit.at(*part).name;
  return fmt::format("the rail {}", quote(circuit, circuit.at(std::get<RailId>(what)).node));
}

complaints::Complaint rails_joined(const Circuit& circuit,
                                   const IdealBranches& wires,
                                   NodeId one,
                                   NodeId other) {
  complaints::Complaint complaint = {.kind = complaints::kind("rails-joined"),
                                     .headline = "",
                                     .places = {},
                                     .why = "",
                                     .instead = ""};
  std::vector<std::string> names;
  for (const std::size_t index : way_between(circuit.nodes.size(), wires.branches, one, other)) {
    names.push_back(name_of(circuit, wires.what[index]));
    complaint.places.push_back(place_of(circuit, wires.what[index]));
  }
  for (const NodeId node : {one, other}) {
    const auto rail = find_rail(circuit, node);
    if (rail) complaint.places.push_back(place_of(circuit, *rail));
  }
  complaint.headline = fmt::format("{} and {} are joined through {}",
                                   quote(circuit, one),
                                   quote(circuit, other),
                                   list_words(names));
  complaint.why =
      one == ground
          ? "A rail joined to ground without resistance has nothing but its source to limit the "
            "current."
          : "Two rails joined without resistance cannot each have a voltage of their own.";
  complaint.instead = fmt::format("Look at the drawing again: which points {} {} join?",
                                  names.size() == 1 ? "does" : "do",
                                  list_words(names));
  return complaint;
}

void check_rails_joined(const Circuit& circuit, complaints::Complaints& found) {
  IdealBranches wires;
  add_parts(circuit, wires, has_no_resistance);
  const auto groups = joined_groups(circuit.nodes.size(), wires.branches);
  std::map<std::size_t, NodeId> first_in_group = {{groups[ground.index], ground}};
  std::size_t told = 0;
  for (const Rail& rail : circuit.rails) {
    const auto [where, is_first] = first_in_group.try_emplace(groups[rail.node.index], rail.node);
    if (is_first || where->second == rail.node || ++told > most_loops) continue;
    found.push_back(rails_joined(circuit, wires, where->second, rail.node));
  }
}

bool is_hold(const Circuit& circuit, const std::variant<PartId, RailId>& what) {
  const auto* part = std::get_if<PartId>(&what);
  return part && circuit.at(*part).kind == PartKind::hold;
}

/// Wires first, so that a loop which holds a source is closed by one.
IdealBranches all_ideal(const Circuit& circuit) {
  IdealBranches ideal;
  add_parts(circuit, ideal, has_no_resistance);
  for (std::size_t index = 0; index < circuit.rails.size(); ++index) {
    if (circuit.rails[index].resistance_ohm > 0.0) continue;
    ideal.add(ground, circuit.rails[index].node, RailId{index});
  }
  add_parts(circuit, ideal, [](const Part& part) { return part.kind == PartKind::hold; });
  return ideal;
}

complaints::Complaint source_loop(const Circuit& circuit,
                                  const IdealBranches& ideal,
                                  const std::vector<std::size_t>& loop) {
  std::vector<std::string> names;
  complaints::Complaint complaint = {
      .kind = complaints::kind("source-loop"),
      .headline = "",
      .places = {},
      .why =
          "Round a loop without any resistance the voltages would have to add to zero, and "
          "nothing decides the current.",
      .instead = "Take one of them out, or draw the resistance that lies between them."};
  for (const std::size_t index : loop) {
    names.push_back(name_of(circuit, ideal.what[index]));
    complaint.places.push_back(place_of(circuit, ideal.what[index]));
  }
  complaint.headline = fmt::format("{} form a loop without resistance", list_words(names));
  return complaint;
}

void check_loops(const Circuit& circuit, complaints::Complaints& found) {
  const IdealBranches ideal = all_ideal(circuit);
  std::size_t told = 0;
  for (const std::size_t closer : loop_closers(circuit.nodes.size(), ideal.branches)) {
    if (!is_hold(circuit, ideal.what[closer]) || ++told > most_loops) continue;
    // The way back is sought among the branches before the one that closes the loop.
    const std::vector<Branch> before(ideal.branches.begin(),
                                     ideal.branches.begin() + static_cast<std::ptrdiff_t>(closer));
    const Branch& last = ideal.branches[closer];
    std::vector<std::size_t> loop = way_between(circuit.nodes.size(), before, last.a, last.b);
    loop.push_back(closer);
    found.push_back(source_loop(circuit, ideal, loop));
  }
}

}  // namespace

void check_source_loops(const Circuit& circuit, complaints::Complaints& found) {
  check_rails_joined(circuit, found);
  check_loops(circuit, found);
}

}  // namespace idlepoint::circuit
