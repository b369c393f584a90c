#include "answers/full_output.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace idlepoint::answers {
namespace {

std::optional<circuit::PartId> first_load(const circuit::Circuit& circuit) {
  for (std::size_t index = 0; index < circuit.parts.size(); ++index) {
    const auto& part = circuit.parts[index];
    if (part.kind == circuit::PartKind::load && !part.damage.absent && part.value > 0.0) {
      return circuit::PartId{index};
    }
  }
  return std::nullopt;
}

}  // namespace

double OutermostSources::mid_v() const noexcept {
  return low_v < 0.0 && high_v > 0.0 ? 0.0 : 0.5 * (low_v + high_v);
}

double OutermostSources::peak_v() const noexcept {
  return std::min(high_v - mid_v(), mid_v() - low_v);
}

OutermostSources OutermostSources::with_mains_high() const noexcept {
  return {low_v * (1.0 + low_tolerance), high_v * (1.0 + high_tolerance), 0.0, 0.0};
}

double OutermostSources::widest_v() const noexcept {
  const OutermostSources high = with_mains_high();
  return high.high_v - high.low_v;
}

OutermostSources outermost_sources(const circuit::Circuit& circuit,
                                   const solve::Conditions& conditions) noexcept {
  OutermostSources sources;
  for (const auto& rail : circuit.rails) {
    if (rail.lost) continue;
    const double volts = circuit::source_v(rail) * conditions.rails;
    if (volts < sources.low_v) {
      sources.low_v = volts;
      sources.low_tolerance = rail.tolerance;
    } else if (volts > sources.high_v) {
      sources.high_v = volts;
      sources.high_tolerance = rail.tolerance;
    }
  }
  return sources;
}

std::optional<FullOutput> full_output(const circuit::Circuit& circuit,
                                      const solve::Conditions& conditions) {
  const auto load = first_load(circuit);
  const auto output = circuit::output_node(circuit);
  const double peak_v = outermost_sources(circuit, conditions).peak_v();
  if (!load || !output || *output == circuit::ground || !(peak_v > 0.0)) return std::nullopt;
  const double load_ohm = circuit.at(*load).value;
  return FullOutput{peak_v, peak_v / load_ohm, load_ohm, *load};
}

double mean_dissipation_w(const FullOutput& full, double level, double phase_rad) noexcept {
  return full.peak_v * full.peak_a *
         (level / std::numbers::pi - 0.25 * level * level * std::cos(phase_rad));
}

double worst_level(double phase_rad) noexcept {
  return std::min(1.0, 2.0 / (std::numbers::pi * std::abs(std::cos(phase_rad))));
}

}  // namespace idlepoint::answers
