// Points that nothing holds at DC: a leg on its own, a base that nothing feeds, an island.
//
// A misspelt name shows in two places at once: where it stands alone and where its true name then
// lacks a leg. Both go into one complaint.
#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>

#include "circuit/sentence.hpp"
#include "circuit/topology_checks.hpp"
#include "circuit/topology_words.hpp"

namespace idlepoint::circuit {
namespace {

/// More than these are no slip of the pen: then no name is guessed.
constexpr std::size_t most_guesses = 50;
/// Points of an island that a complaint names.
constexpr std::size_t most_named = 3;

/// A leg that meets nothing, and the point it may have been meant for.
struct LoneLeg {
  NodeId node;
  LeadAt at;
  std::optional<NodeId> meant;
};

/// Nodes joined to each other and to nothing that holds them.
struct Island {
  std::vector<NodeId> nodes;
  std::vector<LeadAt> bases;  ///< Bases and gates.
  std::vector<LeadAt> feeds;
  bool has_capacitor = false;
};

bool is_base(const Circuit& circuit, LeadAt at) {
  return is_transistor(circuit.at(at.part).kind) && at.lead == 1;
}

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

void add_to(Island& island, const Circuit& circuit, const Wiring& wiring, NodeId node) {
  island.nodes.push_back(node);
  for (const LeadAt at : wiring.leads_at[node.index]) {
    const PartKind kind = circuit.at(at.part).kind;
    if (is_base(circuit, at)) island.bases.push_back(at);
    if (kind == PartKind::feed) island.feeds.push_back(at);
    if (kind == PartKind::capacitor) island.has_capacitor = true;
  }
}

/// Islands in the order of their first node; those that only capacitors reach are held by the
/// board's own insulation and are none.
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
    if (is_new) found.emplace_back();
    add_to(found[where->second], circuit, wiring, NodeId{index});
  }
  std::erase_if(found, [](const Island& island) {
    return island.bases.empty() && island.feeds.empty() && island.has_capacitor;
  });
  return found;
}

bool holds(const Island& island, NodeId node) {
  return std::ranges::find(island.nodes, node) != island.nodes.end();
}

complaints::Place lone_place(const Circuit& circuit, const LoneLeg& leg) {
  std::string remark = fmt::format("{} meets only this lead", quote(circuit, leg.node));
  if (leg.meant) remark += fmt::format(". Nearest known: {}", quote(circuit, *leg.meant));
  return place_of_lead(circuit.at(leg.at.part), leg.at.lead, std::move(remark));
}

std::string write_there(const Circuit& circuit, NodeId meant, const complaints::Place& place) {
  if (place.line == 0) return fmt::format("Write {}", quote(circuit, meant));
  return fmt::format("Write {} on line {}", quote(circuit, meant), place.line);
}

/// Where the name that was likely meant stands.
std::optional<complaints::Place> known_place(const Circuit& circuit,
                                             const Wiring& wiring,
                                             NodeId node) {
  const std::string remark = fmt::format("{} stands here", quote(circuit, node));
  if (const auto rail = find_rail(circuit, node)) {
    return with_remark(circuit.at(*rail).place, remark);
  }
  const auto& legs = wiring.leads_at[node.index];
  if (node == ground || legs.empty()) return std::nullopt;
  return place_of_lead(circuit.at(legs.front().part), legs.front().lead, remark);
}

complaints::Complaint one_leg(const Circuit& circuit, const Wiring& wiring, const LoneLeg& leg) {
  const std::string name = quote(circuit, leg.node);
  complaints::Complaint complaint = {
      .kind = complaints::kind("one-leg"),
      .headline = fmt::format("only one leg meets {}", name),
      .places = {lone_place(circuit, leg)},
      .why =
          "No current can flow into a point that only one leg meets: something is missing "
          "there, or its name is misspelt.",
      .instead = fmt::format(
          "Draw what else meets {0}; where a wire leaves the drawing there, add `socket {1}`.",
          name,
          circuit.at(leg.node).name)};
  if (leg.meant) {
    complaint.instead = fmt::format("{}, or draw what else meets {}.",
                                    write_there(circuit, *leg.meant, complaint.places.front()),
                                    name);
    if (auto place = known_place(circuit, wiring, *leg.meant)) {
      complaint.places.push_back(*std::move(place));
    }
  }
  return complaint;
}

std::string what_meets(const Circuit& circuit, const Wiring& wiring, NodeId node) {
  const std::string name = quote(circuit, node);
  const auto& legs = wiring.leads_at[node.index];
  if (legs.size() == 1) return fmt::format("{} meets only this lead", name);
  const bool no_source = std::ranges::all_of(legs, [&](LeadAt at) {
    return is_base(circuit, at) || circuit.at(at.part).kind == PartKind::capacitor;
  });
  if (no_source) return fmt::format("only bases, gates and capacitors meet {}", name);
  return fmt::format("nothing joins {} to ground or a rail", name);
}

complaints::Complaint unfed_base(const Circuit& circuit,
                                 const Wiring& wiring,
                                 const Island& island) {
  std::vector<std::string> bases;
  complaints::Complaint complaint = {.kind = complaints::kind("unfed-base"),
                                     .headline = "",
                                     .places = {},
                                     .why = "",
                                     .instead = ""};
  for (const LeadAt at : island.bases) {
    const Part& part = circuit.at(at.part);
    bases.push_back(lead_of_part(part, at.lead));
    complaint.places.push_back(
        place_of_lead(part, at.lead, what_meets(circuit, wiring, *part.leads[at.lead])));
    if (bases.size() == most_named) break;
  }
  const bool is_gate = is_fet(circuit.at(island.bases.front().part).kind);
  complaint.headline = fmt::format("nothing feeds {}", list_words(bases));
  complaint.why =
      is_gate ? "A gate rests at a voltage only through a part that conducts at DC; a capacitor "
                "passes none."
              : "A base draws its current through a part that conducts at DC; a capacitor passes "
                "none.";
  complaint.instead = fmt::format("Draw what joins {} to the stage before it.",
                                  quote(circuit, *lead(circuit.at(island.bases.front().part), 1)));
  return complaint;
}

complaints::Complaint untied(const Circuit& circuit, const Wiring& wiring, const Island& island) {
  std::vector<std::string> names;
  complaints::Complaint complaint = {.kind = complaints::kind("untied-point"),
                                     .headline = "",
                                     .places = {},
                                     .why = "",
                                     .instead = ""};
  for (const NodeId node : island.nodes) {
    if (names.size() == most_named) break;
    std::string name = quote(circuit, node);
    if (std::ranges::find(names, name) != names.end()) continue;
    names.push_back(std::move(name));
    const LeadAt at = wiring.leads_at[node.index].front();
    complaint.places.push_back(place_of_lead(circuit.at(at.part), at.lead, names.back()));
  }
  const std::string first = names.front();
  const std::size_t more =
      island.nodes.size() > most_named ? island.nodes.size() - names.size() : 0;
  if (more > 0) names.push_back(fmt::format("{} more", more));
  complaint.headline = fmt::format("nothing sets the voltage of {}", list_words(names));
  complaint.why = island.feeds.empty()
                      ? "At DC every point must be tied to ground through parts that conduct."
                      : "A feed sets a current, not a voltage: at DC every point must be tied to "
                        "ground through parts that conduct.";
  complaint.instead = fmt::format("Join {} to the circuit.", first);
  return complaint;
}

/// The leg that stands alone under a name close to the island's own belongs to the same slip.
void add_lone_leg(complaints::Complaint& complaint,
                  const Circuit& circuit,
                  const Wiring& wiring,
                  const LoneLeg& leg) {
  complaints::Place place = lone_place(circuit, leg);
  const std::string meant = quote(circuit, *leg.meant);
  complaint.instead =
      fmt::format("{}, or join {} to the circuit.", write_there(circuit, *leg.meant, place), meant);
  // A name that several legs bear is the right one: the lone leg is what has to be mended.
  const bool is_well_known = wiring.leads_at[leg.meant->index].size() > 1;
  const auto where = is_well_known ? complaint.places.begin() : complaint.places.end();
  complaint.places.insert(where, std::move(place));
}

class UntiedCheck {
 public:
  UntiedCheck(const Circuit& circuit, const Wiring& wiring)
      : circuit_(circuit), wiring_(wiring), legs_(lone_legs(circuit, wiring)) {}

  void run(complaints::Complaints& found) {
    for (const Island& island : islands(circuit_, wiring_)) judge(island, found);
    for (const LoneLeg& leg : legs_) {
      if (told_.contains(leg.node)) continue;
      found.push_back(one_leg(circuit_, wiring_, leg));
      told_.insert(leg.node);
      // Two lone legs that are each other's nearest name are one slip.
      if (leg.meant && is_meant_back(leg)) told_.insert(*leg.meant);
    }
  }

 private:
  void judge(const Island& island, complaints::Complaints& found) {
    if (is_cut_off_by_a_lone_leg(island)) return;
    const bool is_unfed = !island.bases.empty() && island.feeds.empty();
    complaints::Complaint complaint =
        is_unfed ? unfed_base(circuit_, wiring_, island) : untied(circuit_, wiring_, island);
    for (const LoneLeg& leg : legs_) {
      if (holds(island, leg.node)) told_.insert(leg.node);
      if (!leg.meant || holds(island, leg.node) || !holds(island, *leg.meant)) continue;
      if (!told_.insert(leg.node).second) continue;
      add_lone_leg(complaint, circuit_, wiring_, leg);
    }
    found.push_back(std::move(complaint));
  }

  [[nodiscard]] bool is_meant_back(const LoneLeg& leg) const {
    return std::ranges::any_of(legs_, [&](const LoneLeg& other) {
      return other.node == *leg.meant && other.meant == leg.node;
    });
  }

  /// Then the lone leg is the cause and the island its consequence.
  [[nodiscard]] bool is_cut_off_by_a_lone_leg(const Island& island) const {
    return std::ranges::any_of(legs_, [&](const LoneLeg& leg) {
      return holds(island, leg.node) && !is_base(circuit_, leg.at);
    });
  }

  const Circuit& circuit_;
  const Wiring& wiring_;
  std::vector<LoneLeg> legs_;
  std::set<NodeId> told_;
};

}  // namespace

void check_untied(const Circuit& circuit, const Wiring& wiring, complaints::Complaints& found) {
  UntiedCheck(circuit, wiring).run(found);
}

}  // namespace idlepoint::circuit
