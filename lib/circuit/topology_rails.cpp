// Rails that no part meets, and a negative rail written without its sign.
#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "circuit/topology_checks.hpp"
#include "circuit/topology_words.hpp"
#include "values/format.hpp"

namespace idlepoint::circuit {
namespace {

/// The two rails of one supply differ by less than this.
constexpr double pair_ratio = 1.5;

/// What hangs from a rail.
struct Hanging {
  bool n_collector = false;  ///< As from the positive rail of every stage.
  bool p_collector = false;  ///< As from the negative one.
  bool n_emitter = false;    ///< As from the negative one.
  bool p_emitter = false;
};

/// By close group.
std::map<std::size_t, Hanging> what_hangs(const Circuit& circuit, const Wiring& wiring) {
  std::map<std::size_t, Hanging> hanging;
  for (const Part& part : circuit.parts) {
    if (!is_transistor(part.kind)) continue;
    const bool is_p = is_p_kind(part.kind);
    if (const auto node = lead(part, 0)) {
      Hanging& here = hanging[wiring.close_group[node->index]];
      (is_p ? here.p_collector : here.n_collector) = true;
    }
    if (const auto node = lead(part, 2)) {
      Hanging& here = hanging[wiring.close_group[node->index]];
      (is_p ? here.p_emitter : here.n_emitter) = true;
    }
  }
  return hanging;
}

bool are_a_pair(const Rail& one, const Rail& other) {
  const double ratio = source_v(one) / source_v(other);
  return ratio > 1.0 / pair_ratio && ratio < pair_ratio;
}

bool is_used_as(bool as_positive, const Hanging& hanging) {
  return as_positive ? hanging.n_collector || hanging.p_emitter
                     : hanging.p_collector || hanging.n_emitter;
}

/// A follower's collector, which tells a rail for certain.
bool is_surely(bool as_positive, const Hanging& hanging) {
  return as_positive ? hanging.n_collector : hanging.p_collector;
}

std::string written_volts(double volts) {
  std::string text = values::format_value(volts, values::Unit::volt);
  std::erase(text, ' ');
  return text;
}

complaints::Complaint wrong_sign(const Circuit& circuit, const Rail& rail) {
  const double volts = source_v(rail);
  const std::string name = quote(circuit, rail.node);
  const bool is_positive = volts > 0.0;
  return {.kind = complaints::kind("rails-of-one-sign"),
          .headline = fmt::format("both rails are {}, and {} is used as the {} one",
                                  is_positive ? "positive" : "negative",
                                  name,
                                  is_positive ? "negative" : "positive"),
          .places = {with_remark(rail.place, "is its sign missing?")},
          .why = "The transistors that hang from it conduct the other way.",
          .instead = fmt::format("Write `rail {} {}{}` if that is what the sheet means.",
                                 circuit.at(rail.node).name,
                                 is_positive ? "" : "+",
                                 written_volts(-rail.nominal_v))};
}

complaints::Complaint unused(const Circuit& circuit, const Rail& rail) {
  const std::string name = quote(circuit, rail.node);
  complaints::Complaint complaint = {
      .kind = complaints::kind("unused-rail"),
      .headline = fmt::format("no part meets the rail {}", name),
      .places = {with_remark(rail.place, fmt::format("no leg meets {}", name))},
      .why = "Parts that were meant to hang from it have no supply.",
      .instead = "Compare the names of its points with the drawing, or leave the rail out."};
  const auto meant = likely_meant(circuit, rail.node);
  if (!meant || find_rail(circuit, *meant)) return complaint;
  complaint.places.front().remark += fmt::format(". Nearest known: {}", quote(circuit, *meant));
  complaint.instead = fmt::format("Write {} here, if that is the rail.", quote(circuit, *meant));
  return complaint;
}

}  // namespace

std::vector<RailId> rails_of_doubtful_sign(const Circuit& circuit, const Wiring& wiring) {
  const auto is_positive = [](const Rail& rail) { return source_v(rail) > 0.0; };
  if (circuit.rails.size() < 2) return {};
  const bool sign = is_positive(circuit.rails.front());
  if (!std::ranges::all_of(circuit.rails,
                           [&](const Rail& rail) { return is_positive(rail) == sign; })) {
    return {};
  }
  std::map<std::size_t, Hanging> hanging = what_hangs(circuit, wiring);
  const auto at = [&](const Rail& rail) -> const Hanging& {
    return hanging[wiring.close_group[rail.node.index]];
  };
  std::vector<RailId> doubtful;
  for (std::size_t index = 0; index < circuit.rails.size(); ++index) {
    const Rail& rail = circuit.rails[index];
    if (!is_used_as(!sign, at(rail))) continue;
    const bool has_partner = std::ranges::any_of(circuit.rails, [&](const Rail& other) {
      return other.node != rail.node && are_a_pair(rail, other) && is_surely(sign, at(other));
    });
    if (has_partner) doubtful.push_back(RailId{index});
  }
  return doubtful;
}

void check_rails(const Circuit& circuit, const Wiring& wiring, complaints::Complaints& found) {
  for (const RailId id : rails_of_doubtful_sign(circuit, wiring)) {
    found.push_back(wrong_sign(circuit, circuit.at(id)));
  }
  for (const Rail& rail : circuit.rails) {
    if (wiring.leads_at[rail.node.index].empty()) found.push_back(unused(circuit, rail));
  }
}

}  // namespace idlepoint::circuit
