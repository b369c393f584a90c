#include "solve/conduction.hpp"

#include <cmath>

namespace idlepoint::solve {
namespace {

constexpr double off_below_a = 1e-6;

Conduction region(double forward_a, double reverse_a) {
  if (std::abs(forward_a) < off_below_a && std::abs(reverse_a) < off_below_a) {
    return Conduction::off;
  }
  if (reverse_a > forward_a) return Conduction::reversed;
  return reverse_a > forward_a / 100.0 ? Conduction::saturated : Conduction::active;
}

Conduction diode_region(double current_a) {
  if (std::abs(current_a) < off_below_a) return Conduction::off;
  return current_a > 0.0 ? Conduction::forward : Conduction::breakdown;
}

}  // namespace

std::vector<Region> find_regions(const circuit::Circuit& circuit,
                                 const System& system,
                                 const Numbers& numbers,
                                 const State& state,
                                 const Work& work) {
  std::vector<Region> regions(circuit.parts.size());
  for (std::size_t k = 0; k < circuit.parts.size(); ++k) {
    if (circuit::has_type(circuit.parts[k].kind)) regions[k].conduction = Conduction::off;
  }
  for (std::size_t k = 0; k < work.diodes.size(); ++k) {
    const circuit::PartId part = *system.wiring.diodes[k].owner_a.part;
    if (circuit.at(part).kind != circuit::PartKind::diode) continue;
    regions[part.index].conduction = diode_region(work.diodes[k].current_a);
  }
  for (std::size_t k = 0; k < numbers.bipolars.size(); ++k) {
    const auto [ube_v, ubc_v] = state.bipolar_v[k];
    const auto law = devices::evaluate_bipolar(numbers.bipolars[k].at, ube_v, ubc_v);
    regions[system.wiring.bipolars[k].part.index] = {region(law.forward_a, law.reverse_a),
                                                     law.in_breakdown};
  }
  for (std::size_t k = 0; k < numbers.fets.size(); ++k) {
    const auto& at = numbers.fets[k].at;
    const auto [ugs_v, ugd_v] = state.fet_v[k];
    const auto law = devices::evaluate_fet(at, ugs_v, (ugs_v - ugd_v) / at.slope_factor);
    regions[system.wiring.fets[k].part.index].conduction = region(law.forward_a, law.reverse_a);
  }
  return regions;
}

}  // namespace idlepoint::solve
