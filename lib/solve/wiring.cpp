#include "solve/wiring.hpp"

#include "devices/passive.hpp"
#include "solve/describe_parts.hpp"

namespace idlepoint::solve {

using circuit::Circuit;
using circuit::Part;
using circuit::PartId;

namespace {

void describe_rails(const Circuit& circuit, const Conditions& conditions, Sketch& sketch) {
  Wiring& wiring = sketch.wiring();
  for (const circuit::Rail& rail : circuit.rails) {
    wiring.rail_sources.push_back(rail.lost ? std::nullopt : std::optional(wiring.ideals.size()));
    if (rail.lost) continue;
    const auto node = static_cast<Index>(rail.node.index);
    const bool is_stiff = rail.resistance_ohm == 0.0;
    const Index source = is_stiff ? node : sketch.new_point();
    sketch.add_ideal(source, 0, conditions.rails * circuit::source_v(rail), {}, {});
    if (!is_stiff) sketch.add_resistance(source, node, rail.resistance_ohm, {}, {});
  }
}

}  // namespace

Description describe(const Circuit& circuit, const Conditions& conditions) {
  Sketch sketch(circuit, conditions);
  describe_rails(circuit, conditions, sketch);
  for (std::size_t k = 0; k < circuit.parts.size(); ++k) sketch.add_part(PartId{k});
  return std::move(sketch).finish();
}

std::optional<std::size_t> track_of(const Wiring& wiring, PartId trimmer) {
  for (std::size_t k = 0; k < wiring.tracks.size(); ++k) {
    if (wiring.tracks[k].part == trimmer) return k;
  }
  return std::nullopt;
}

TrackConductance track_conductance(const Part& trimmer, double travel) noexcept {
  const auto& details = std::get<circuit::TrimmerDetails>(trimmer.details);
  const double a_ohm = travel * trimmer.value + details.end_resistance_ohm;
  const double b_ohm = (1.0 - travel) * trimmer.value + details.end_resistance_ohm;
  return {
      1.0 / a_ohm, -trimmer.value / (a_ohm * a_ohm), 1.0 / b_ohm, trimmer.value / (b_ohm * b_ohm)};
}

}  // namespace idlepoint::solve
