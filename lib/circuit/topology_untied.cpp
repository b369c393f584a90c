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
#include "circuit/topology_islands.hpp"
#include "circuit/topology_words.hpp"

namespace idlepoint::circuit {
namespace {

/// Points of an island that a complaint names.
constexpr std::size_t most_named = 3;
/// A drawing with more is no drawing; these are enough to begin with.
constexpr std::size_t most_islands = 100;

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
  const std::string name = quote(circuit, node);
  if (const auto rail = find_rail(circuit, node)) {
    return with_remark(circuit.at(*rail).place, fmt::format("the rail {}", name));
  }
  const auto& legs = wiring.leads_at[node.index];
  if (node == ground || legs.empty()) return std::nullopt;
  std::string remark = legs.size() == 1 ? fmt::format("{} meets only this lead", name)
                                        : fmt::format("{} meets {} leads", name, legs.size());
  return place_of_lead(circuit.at(legs.front().part), legs.front().lead, std::move(remark));
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
    complaint.places.push_back(
        place_of_lead(circuit.at(at.part), at.lead, fmt::format("nothing holds {}", names.back())));
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
      : circuit_(circuit), wiring_(wiring), legs_(lone_legs(circuit, wiring)) {
    for (const LoneLeg& leg : legs_) {
      in_group_[group_of(leg.node)].push_back(&leg);
      if (leg.meant) meant_for_group_[group_of(*leg.meant)].push_back(&leg);
    }
  }

  void run(complaints::Complaints& found) {
    std::vector<Island> all = islands(circuit_, wiring_);
    if (all.size() > most_islands) all.resize(most_islands);
    for (const Island& island : all) judge(island, found);
    for (const LoneLeg& leg : legs_) {
      if (told_.contains(leg.node)) continue;
      found.push_back(one_leg(circuit_, wiring_, leg));
      told_.insert(leg.node);
      // Two lone legs that are each other's nearest name are one slip.
      if (leg.meant && is_meant_back(leg)) told_.insert(*leg.meant);
    }
  }

 private:
  [[nodiscard]] std::size_t group_of(NodeId node) const {
    return wiring_.conducting_group[node.index];
  }

  void judge(const Island& island, complaints::Complaints& found) {
    // A lone leg that is no base cuts the island off: it is the cause, the island its consequence.
    const auto& own = in_group_[island.group];
    const bool is_cut_off =
        std::ranges::any_of(own, [&](const LoneLeg* leg) { return !is_base(circuit_, leg->at); });
    if (is_cut_off) return;
    for (const LoneLeg* leg : own) told_.insert(leg->node);

    const bool is_unfed = !island.bases.empty() && island.feeds.empty();
    complaints::Complaint complaint =
        is_unfed ? unfed_base(circuit_, wiring_, island) : untied(circuit_, wiring_, island);
    for (const LoneLeg* leg : meant_for_group_[island.group]) {
      if (!told_.insert(leg->node).second) continue;
      add_lone_leg(complaint, circuit_, wiring_, *leg);
    }
    found.push_back(std::move(complaint));
  }

  [[nodiscard]] bool is_meant_back(const LoneLeg& leg) {
    return std::ranges::any_of(in_group_[group_of(*leg.meant)], [&](const LoneLeg* other) {
      return other->node == *leg.meant && other->meant == leg.node;
    });
  }

  const Circuit& circuit_;
  const Wiring& wiring_;
  std::vector<LoneLeg> legs_;
  std::map<std::size_t, std::vector<const LoneLeg*>> in_group_;
  std::map<std::size_t, std::vector<const LoneLeg*>> meant_for_group_;
  std::set<NodeId> told_;
};

}  // namespace

void check_untied(const Circuit& circuit, const Wiring& wiring, complaints::Complaints& found) {
  UntiedCheck(circuit, wiring).run(found);
}

}  // namespace idlepoint::circuit
