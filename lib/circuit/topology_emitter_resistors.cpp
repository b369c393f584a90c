// Emitter resistors of output transistors that cannot be what the sheet prints.
//
// A decimal point lost (0R33 read as 33R or 33k) shows in two ways: the resistor is unlike its
// sisters, or larger than the loudspeaker it stands in series with.
#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "circuit/topology_checks.hpp"
#include "circuit/topology_words.hpp"
#include "values/format.hpp"

namespace idlepoint::circuit {
namespace {

constexpr double unlike_ratio = 5.0;
constexpr double usual_most_ohm = 10.0;

/// Finds the resistors in series with output transistors.
class OutputResistors {
 public:
  OutputResistors(const Circuit& circuit, const Wiring& wiring)
      : circuit_(circuit), wiring_(wiring) {}

  [[nodiscard]] std::vector<const Part*> find() const {
    std::vector<const Part*> resistors;
    for (const Part& part : circuit_.parts) {
      if (part.kind != PartKind::resistor || !lead(part, 0) || !lead(part, 1)) continue;
      const bool is_one = lies_between(*lead(part, 0), *lead(part, 1)) ||
                          lies_between(*lead(part, 1), *lead(part, 0));
      if (is_one) resistors.push_back(&part);
    }
    return resistors;
  }

 private:
  /// True where an output transistor meets `inner` and `outer` is where its current goes on.
  [[nodiscard]] bool lies_between(NodeId inner, NodeId outer) const {
    const bool to_output = is_close(wiring_, outer, wiring_.output);
    const bool to_rail = supply_near(wiring_, outer) != nullptr;
    if ((!to_output && !to_rail) || inner == wiring_.output || feeds_a_base(inner)) return false;
    return std::ranges::any_of(wiring_.leads_at[inner.index], [&](LeadAt at) {
      const Part& part = circuit_.at(at.part);
      if (!is_transistor(part.kind) || at.lead == 1) return false;
      const auto other_end = lead(part, at.lead == 0 ? 2 : 0);
      if (to_output) return supply_near(wiring_, other_end) != nullptr;
      return at.lead == 2 && is_close(wiring_, other_end, wiring_.output);
    });
  }

  /// Then it is a driver's emitter, and its resistor sets a current.
  [[nodiscard]] bool feeds_a_base(NodeId node) const {
    return std::ranges::any_of(wiring_.leads_at[node.index], [&](LeadAt at) {
      return is_transistor(circuit_.at(at.part).kind) && at.lead == 1;
    });
  }

  const Circuit& circuit_;
  const Wiring& wiring_;
};

complaints::Complaint suspicious(const Part& resistor, std::string headline) {
  return {.kind = complaints::kind("emitter-resistor"),
          .headline = std::move(headline),
          .places = {with_remark(resistor.place, "")},
          .why =
              "A resistor in series with an output transistor is usually 0R1 to 1R and alike in "
              "both halves.",
          .instead = "Look for the decimal point: R33 and 0R33 are 0.33 ohms, 33R is 33 ohms."};
}

std::optional<complaints::Complaint> judge(const Part& resistor,
                                           const Part& smallest,
                                           std::optional<double> load_ohm) {
  const std::string ohms = values::format_ohms(resistor.value);
  if (resistor.value >= unlike_ratio * smallest.value) {
    auto complaint = suspicious(resistor,
                                fmt::format("{} is {} where {} is {}",
                                            resistor.name,
                                            ohms,
                                            smallest.name,
                                            values::format_ohms(smallest.value)));
    complaint.places.push_back(with_remark(smallest.place, "its sister"));
    return complaint;
  }
  if (resistor.value <= std::max(usual_most_ohm, load_ohm.value_or(usual_most_ohm))) return {};
  if (!load_ohm) {
    return suspicious(
        resistor, fmt::format("{} is {} in series with an output transistor", resistor.name, ohms));
  }
  return suspicious(resistor,
                    fmt::format("{} is {}, more than the loudspeaker's own {}",
                                resistor.name,
                                ohms,
                                values::format_ohms(*load_ohm)));
}

}  // namespace

void check_emitter_resistors(const Circuit& circuit,
                             const Wiring& wiring,
                             complaints::Complaints& found) {
  if (!wiring.output) return;
  std::vector<const Part*> resistors = OutputResistors(circuit, wiring).find();
  std::erase_if(resistors, [](const Part* part) { return part->value <= 0.0; });
  if (resistors.empty()) return;
  const Part* smallest = *std::ranges::min_element(resistors, {}, &Part::value);
  const auto load = std::ranges::find(circuit.parts, PartKind::load, &Part::kind);
  std::optional<double> load_ohm;
  if (load != circuit.parts.end()) load_ohm = load->value;
  for (const Part* resistor : resistors) {
    if (auto complaint = judge(*resistor, *smallest, load_ohm)) {
      found.push_back(*std::move(complaint));
    }
  }
}

}  // namespace idlepoint::circuit
