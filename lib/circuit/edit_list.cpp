// Every way in which one part of a drawing can be open or short.
//
// Stand-ins (hold, feed) are not parts that can fail, and the loudspeaker is not the stage's. What
// changes nothing at all is left out: a short across a wire link, between leads on one node.
#include <array>
#include <utility>

#include "circuit/edits.hpp"

namespace idlepoint::circuit {
namespace {

bool can_fail(const Part& part) {
  return part.kind != PartKind::hold && part.kind != PartKind::feed &&
         part.kind != PartKind::load && !part.damage.absent;
}

void add_shorts_between_leads(const Part& part, PartId id, std::vector<Edit>& edits) {
  constexpr std::array<std::pair<std::size_t, std::size_t>, 3> pairs = {{{0, 1}, {0, 2}, {1, 2}}};
  for (const auto& [one, other] : pairs) {
    const auto a = lead(part, one);
    const auto b = lead(part, other);
    if (a && b && a != b) edits.emplace_back(ShortLeads{id, one, other});
  }
}

void add_lifted_leads(const Circuit& circuit, PartId id, std::vector<Edit>& edits) {
  const Part& part = circuit.at(id);
  const bool is_trimmer = part.kind == PartKind::trimmer;
  for (std::size_t index = 0; index < part.leads.size(); ++index) {
    const auto node = lead(part, index);
    if (!node || circuit.at(*node).lifted) continue;
    if (is_trimmer && lead_names(part.kind)[index] == "wiper") {
      if (!part.damage.wiper_open) edits.emplace_back(LiftWiper{id});
    } else {
      edits.emplace_back(OpenLead{id, index});
    }
  }
}

}  // namespace

std::vector<Edit> every_open_and_short(const Circuit& circuit) {
  std::vector<Edit> edits;
  for (std::size_t index = 0; index < circuit.parts.size(); ++index) {
    const PartId id{index};
    const Part& part = circuit.at(id);
    if (!can_fail(part)) continue;
    edits.emplace_back(OpenPart{id});
    if (part.leads.size() > 2) {
      add_shorts_between_leads(part, id, edits);
      add_lifted_leads(circuit, id, edits);
    } else if (part.kind != PartKind::link && !part.damage.is_link && lead(part, 0) &&
               lead(part, 1)) {
      edits.emplace_back(ShortPart{id});
    }
  }
  return edits;
}

}  // namespace idlepoint::circuit
