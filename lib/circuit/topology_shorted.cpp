// Parts that the drawing itself shorts, and transistors wired as diodes.
#include <fmt/format.h>

#include <algorithm>

#include "circuit/topology_checks.hpp"
#include "circuit/topology_words.hpp"

namespace idlepoint::circuit {
namespace {

/// The node that all the leads of a part share, if they do; a lead left off does not count.
std::optional<NodeId> only_node(const Part& part) {
  std::optional<NodeId> shared;
  std::size_t leads = 0;
  for (const auto& node : part.leads) {
    if (!node) continue;
    if (shared && *node != *shared) return std::nullopt;
    shared = node;
    ++leads;
  }
  return leads >= 2 ? shared : std::nullopt;
}

bool is_together(const Part& part, std::size_t one, std::size_t other) {
  return is_transistor(part.kind) && lead(part, one) && lead(part, one) == lead(part, other);
}

std::vector<complaints::Place> places_of(const Part& part, std::size_t one, std::size_t other) {
  std::vector<complaints::Place> places = {place_of_lead(part, one, lead_of_part(part, one)),
                                           place_of_lead(part, other, lead_of_part(part, other))};
  if (part.lead_places.empty()) places.pop_back();
  return places;
}

complaints::Complaint part_on_one_point(const Circuit& circuit, const Part& part, NodeId node) {
  const bool has_two = part.leads.size() == 2;
  const std::size_t last = part.leads.size() - (part.leads.back() ? 1 : 2);
  return {.kind = complaints::kind("part-on-one-point"),
          .headline = fmt::format("{} of {} are on {}",
                                  has_two ? "both ends" : "all legs",
                                  part.name,
                                  quote(circuit, node)),
          .places = places_of(part, 0, last),
          .why = "With no voltage between its leads it does nothing.",
          .instead = "Look at the drawing again: one of the names is another."};
}

std::string advice(const Part& part) {
  if (part.kind == PartKind::n_jfet || part.kind == PartKind::p_jfet) {
    return fmt::format(
        "Look at the drawing again; a junction FET that serves as a current source may be written "
        "as a `feed`, or with a resistor in its source.");
  }
  return fmt::format("Look at the drawing again: which point does the {} of {} meet?",
                     lead_in_words(part.kind, base_or_gate),
                     part.name);
}

complaints::Complaint base_on_emitter(const Circuit& circuit, const Part& part) {
  return {.kind = complaints::kind("base-on-emitter"),
          .headline = fmt::format("{} and {} of {} are both on {}",
                                  lead_in_words(part.kind, base_or_gate),
                                  lead_in_words(part.kind, emitter_or_source),
                                  part.name,
                                  quote(circuit, *lead(part, base_or_gate))),
          .places = places_of(part, base_or_gate, emitter_or_source),
          .why = is_bipolar(part.kind)
                     ? "With no voltage between base and emitter the transistor stays off."
                     : "With no voltage between gate and source nothing can steer it.",
          .instead = advice(part)};
}

complaints::Complaint collector_on_base(const Circuit& circuit, const Part& part) {
  return {
      .kind = complaints::kind("collector-on-base"),
      .headline = fmt::format("{} and {} of {} are both on {}",
                              lead_in_words(part.kind, collector_or_drain),
                              lead_in_words(part.kind, base_or_gate),
                              part.name,
                              quote(circuit, *lead(part, base_or_gate))),
      .places = places_of(part, collector_or_drain, base_or_gate),
      .why = "Wired so it serves as a diode, which is usual in current mirrors and bias strings.",
      .instead = "Nothing, if the drawing shows it."};
}

}  // namespace

void check_shorted(const Circuit& circuit, complaints::Complaints& found) {
  for (const Part& part : circuit.parts) {
    if (const auto node = only_node(part)) {
      found.push_back(part_on_one_point(circuit, part, *node));
    } else if (is_together(part, base_or_gate, emitter_or_source)) {
      found.push_back(base_on_emitter(circuit, part));
    } else if (is_together(part, collector_or_drain, base_or_gate)) {
      found.push_back(collector_on_base(circuit, part));
    }
  }
}

}  // namespace idlepoint::circuit
