// Two diodes in series of which one is drawn the wrong way round.
#include <fmt/format.h>

#include "circuit/topology_checks.hpp"
#include "circuit/topology_words.hpp"

namespace idlepoint::circuit {
namespace {

/// Zeners back to back are a clamp.
bool is_plain_diode(const Circuit& circuit, const Part& part) {
  if (part.kind != PartKind::diode) return false;
  if (!part.type) return true;
  const auto* data = std::get_if<devices::DiodeData>(&circuit.at(*part.type).law);
  return !data || !data->zener_voltage_v;
}

/// What meets a node at DC.
std::vector<LeadAt> legs_at_dc(const Circuit& circuit, const Wiring& wiring, NodeId node) {
  std::vector<LeadAt> legs = wiring.leads_at[node.index];
  std::erase_if(legs, [&](LeadAt at) { return circuit.at(at.part).kind == PartKind::capacitor; });
  return legs;
}

}  // namespace

void check_diodes(const Circuit& circuit, const Wiring& wiring, complaints::Complaints& found) {
  for (std::size_t index = 0; index < circuit.nodes.size(); ++index) {
    const NodeId node{index};
    if (node == ground || wiring.has_rail[index] || circuit.at(node).is_socket) continue;
    const std::vector<LeadAt> legs = legs_at_dc(circuit, wiring, node);
    if (legs.size() != 2 || legs[0].part == legs[1].part || legs[0].lead != legs[1].lead) continue;
    const Part& one = circuit.at(legs[0].part);
    const Part& other = circuit.at(legs[1].part);
    if (!is_plain_diode(circuit, one) || !is_plain_diode(circuit, other)) continue;
    const std::string end = lead_in_words(PartKind::diode, legs[0].lead);
    found.push_back(
        {.kind = complaints::kind("diodes-face-to-face"),
         .headline = fmt::format(
             "{} and {} meet {} to {} at {}", one.name, other.name, end, end, quote(circuit, node)),
         .places = {place_of_lead(one, legs[0].lead, lead_of_part(one, legs[0].lead)),
                    place_of_lead(other, legs[1].lead, lead_of_part(other, legs[1].lead))},
         .why = "Nothing else meets that point, so no current can pass either of them.",
         .instead = "Exchange `anode=` and `cathode=` of the one that the drawing shows the other "
                    "way round."});
  }
}

}  // namespace idlepoint::circuit
