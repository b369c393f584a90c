#include "solve/law_range.hpp"

#include <cmath>

namespace idlepoint::solve {
namespace {

constexpr double largest_voltage_v = 1e6;

bool is_diode_in_range(const devices::DiodeAt& at, double v) {
  if (v / at.forward.scale_v > devices::largest_exponent) return false;
  return !at.has_zener || -(v + at.zener_v) / at.zener_scale_v <= devices::largest_exponent;
}

bool is_bipolar_in_range(const devices::BipolarAt& at, double ube_v, double ubc_v) {
  const double u = at.thermal_v.value;
  if (ube_v / (at.ideality * u) > devices::largest_exponent) return false;
  if (ubc_v / (at.inverse_ideality * u) > devices::largest_exponent) return false;
  if (at.has_breakdown && -(ube_v + at.breakdown_v) / u > devices::largest_exponent) return false;
  return devices::evaluate_bipolar(at, ube_v, ubc_v).in_range;
}

}  // namespace

std::optional<OutsideLaw> find_outside_law(const System& system,
                                           const Numbers& numbers,
                                           const State& state,
                                           const Work& work) {
  for (std::size_t k = 0; k < work.point_v.size(); ++k) {
    if (!(std::abs(work.point_v[k]) <= largest_voltage_v)) {
      return OutsideLaw{static_cast<Index>(k), {}};
    }
  }
  for (std::size_t k = 0; k < numbers.diodes.size(); ++k) {
    if (!is_diode_in_range(numbers.diodes[k].at, state.diode_v[k])) {
      return OutsideLaw{{}, system.wiring.diodes[k].owner_a.part};
    }
  }
  for (std::size_t k = 0; k < numbers.bipolars.size(); ++k) {
    const auto [ube_v, ubc_v] = state.bipolar_v[k];
    if (!is_bipolar_in_range(numbers.bipolars[k].at, ube_v, ubc_v)) {
      return OutsideLaw{{}, system.wiring.bipolars[k].part};
    }
  }
  return std::nullopt;
}

}  // namespace idlepoint::solve
