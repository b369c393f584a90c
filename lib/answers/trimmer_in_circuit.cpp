#include "answers/trimmer_in_circuit.hpp"

#include <utility>
#include <variant>

#include "circuit/power_off.hpp"

namespace idlepoint::answers {
namespace {

using circuit::CheckedCircuit;
using circuit::PartId;

std::vector<LegsInCircuit> measure(const CheckedCircuit& off,
                                   PartId trimmer,
                                   const solve::Conditions& conditions) {
  std::vector<LegsInCircuit> found;
  const auto& part = off->at(trimmer);
  for (const auto& [one, other] : {std::pair<std::size_t, std::size_t>{0, 1}, {1, 2}}) {
    const auto a = circuit::lead(part, one);
    const auto b = circuit::lead(part, other);
    if (!a || !b || *a == *b) continue;
    const circuit::VoltsBetween points{*a, *b};
    const auto ohms = off_figure(off, points, OffRange::ohms, conditions);
    const auto reversed = off_figure(off, points, OffRange::ohms_reversed, conditions);
    if (ohms && reversed) found.push_back({points, *ohms, *reversed});
  }
  return found;
}

}  // namespace

TrimmerInCircuit trimmer_in_circuit(const CheckedCircuit& stage,
                                    PartId trimmer,
                                    std::optional<circuit::TrackEnd> safe_end,
                                    const solve::Conditions& conditions) {
  solve::Conditions dead = conditions;
  dead.heat = solve::HeatState::cold;
  const auto off = circuit::power_off(stage);
  TrimmerInCircuit found;
  found.at_preset = measure(off, trimmer, dead);
  if (!safe_end) return found;
  const auto turned = off.edited([&](circuit::Circuit& circuit) {
    std::get<circuit::TrimmerDetails>(circuit.at(trimmer).details).travel =
        *safe_end == circuit::TrackEnd::a ? 0.0 : 1.0;
  });
  found.at_safe_end = measure(turned, trimmer, dead);
  return found;
}

}  // namespace idlepoint::answers
