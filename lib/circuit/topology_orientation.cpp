// Transistors whose collector and emitter point at the wrong rails.
//
// The commonest slip in copying: the lower transistor of a quasi-complementary stage drawn emitter
// to output. The drawing alone tells it where a leg meets the highest or the lowest supply.
#include <fmt/format.h>

#include <algorithm>
#include <cctype>

#include "circuit/topology_checks.hpp"
#include "circuit/topology_words.hpp"

namespace idlepoint::circuit {
namespace {

struct Extremes {
  double lowest_v = 0.0;
  double highest_v = 0.0;
};

Extremes extremes_of(const Wiring& wiring) {
  const auto [low, high] = std::ranges::minmax_element(wiring.supplies, {}, &Supply::volts);
  return {.lowest_v = low->volts, .highest_v = high->volts};
}

/// A junction FET works either way round; its drain and source are no matter of the rails.
bool has_a_right_way(PartKind kind) {
  return is_bipolar(kind) || kind == PartKind::n_mosfet || kind == PartKind::p_mosfet;
}

bool stands_at(const Supply* supply, double volts) { return supply && supply->volts == volts; }

bool is_doubtful(const Supply* supply, const std::vector<RailId>& doubtful) {
  return supply && supply->rail && std::ranges::find(doubtful, *supply->rail) != doubtful.end();
}

/// The collector at the rail where the emitter belongs, or the emitter where the collector does.
bool is_upside_down(const Part& part, const Wiring& wiring, const Extremes& extremes) {
  const bool is_p = is_p_kind(part.kind);
  const double emitter_side_v = is_p ? extremes.highest_v : extremes.lowest_v;
  const double collector_side_v = is_p ? extremes.lowest_v : extremes.highest_v;
  const bool collector_wrong =
      stands_at(supply_near(wiring, lead(part, collector_or_drain)), emitter_side_v);
  const bool emitter_wrong =
      stands_at(supply_near(wiring, lead(part, emitter_or_source)), collector_side_v);
  const bool emitter_right =
      stands_at(supply_near(wiring, lead(part, emitter_or_source)), emitter_side_v);
  const bool collector_right =
      stands_at(supply_near(wiring, lead(part, collector_or_drain)), collector_side_v);
  return (collector_wrong && !emitter_right) || (emitter_wrong && !collector_right);
}

/// "NPN", "n-mosfet": as the bench writes it in a sentence.
std::string kind_for_sentence(PartKind kind) {
  std::string word(keyword(kind));
  if (is_bipolar(kind))
    std::ranges::transform(
        word, word.begin(), [](char letter) { return static_cast<char>(letter - 'a' + 'A'); });
  return word;
}

std::string article_for(PartKind kind) { return is_p_kind(kind) ? "a" : "an"; }

std::string advice(const Part& part, const Wiring& wiring) {
  const auto names = lead_names(part.kind);
  const std::string exchange = fmt::format("Exchange `{}=` and `{}=` of {}, if the drawing allows",
                                           names[collector_or_drain],
                                           names[emitter_or_source],
                                           part.name);
  if (!is_close(wiring, lead(part, emitter_or_source), wiring.output)) {
    return fmt::format("{}, or look at its kind again.", exchange);
  }
  const bool is_p = is_p_kind(part.kind);
  return fmt::format(
      "In a quasi-complementary stage the {} {} hangs from the output by its {}, its {} towards "
      "the rail. {}, or write `{}` if the stage is complementary.",
      is_p ? "upper" : "lower",
      kind_for_sentence(part.kind),
      lead_in_words(part.kind, collector_or_drain),
      lead_in_words(part.kind, emitter_or_source),
      exchange,
      is_fet(part.kind) ? (is_p ? "n-mosfet" : "p-mosfet") : (is_p ? "npn" : "pnp"));
}

complaints::Complaint upside_down(const Circuit& circuit, const Wiring& wiring, const Part& part) {
  const std::string c = lead_in_words(part.kind, collector_or_drain);
  const std::string e = lead_in_words(part.kind, emitter_or_source);
  const std::string kind = kind_for_sentence(part.kind);
  return {
      .kind = complaints::kind("upside-down"),
      .headline = fmt::format("{} is {} {} whose {} sits at {} and whose {} at {}",
                              part.name,
                              article_for(part.kind),
                              kind,
                              e,
                              quote(circuit, *lead(part, emitter_or_source)),
                              c,
                              quote(circuit, *lead(part, collector_or_drain))),
      .places = {place_of_lead(part, collector_or_drain, lead_of_part(part, collector_or_drain)),
                 place_of_lead(part, emitter_or_source, lead_of_part(part, emitter_or_source))},
      .why = fmt::format("The {} of {} {} stands {} its {}; the other way round it hardly "
                         "amplifies.",
                         c,
                         article_for(part.kind),
                         kind,
                         is_p_kind(part.kind) ? "below" : "above",
                         e),
      .instead = advice(part, wiring)};
}

}  // namespace

void check_orientation(const Circuit& circuit,
                       const Wiring& wiring,
                       complaints::Complaints& found) {
  const Extremes extremes = extremes_of(wiring);
  if (extremes.lowest_v == extremes.highest_v) return;
  const std::vector<RailId> doubtful = rails_of_doubtful_sign(circuit, wiring);
  for (const Part& part : circuit.parts) {
    if (!has_a_right_way(part.kind) || !lead(part, collector_or_drain) ||
        !lead(part, emitter_or_source))
      continue;
    if (!is_upside_down(part, wiring, extremes)) continue;
    if (is_doubtful(supply_near(wiring, lead(part, collector_or_drain)), doubtful)) continue;
    if (is_doubtful(supply_near(wiring, lead(part, emitter_or_source)), doubtful)) continue;
    found.push_back(upside_down(circuit, wiring, part));
  }
}

}  // namespace idlepoint::circuit
