// The junction's law and its steps, written for any Real of devices/elementary.hpp.
//
// Inlined into the hot loops of the scalar solver and of the lanes alike; conventions and sources
// stand in devices/junction.hpp.
#pragma once

#include "devices/exponential.hpp"
#include "devices/junction.hpp"
#include "values/constants.hpp"

namespace idlepoint::devices::law {

template <class Real>
[[nodiscard]] inline BasicJunctionTangent<Real> evaluate_junction(const BasicJunctionAt<Real>& at,
                                                                  const Real& voltage_v) noexcept {
  const Real per_scale = 1.0 / at.scale_v;
  const Real x = voltage_v * per_scale;
  const Growth<Real> g = growth(x);
  const Real conductance_s = at.saturation_a * g.slope * per_scale;
  return {
      .current_a = at.saturation_a * g.less_one,
      .conductance_s = conductance_s,
      .slope_a_per_k = at.saturation_a_per_k * g.less_one - conductance_s * x * at.scale_v_per_k};
}

/// What the saturation factor depends on beside the temperature.
template <class Real>
struct SaturationLaw {
  Real measured_at_k;
  Real temperature_power;
  Real band_gap_ev;
};

template <class Real>
[[nodiscard]] inline BasicScaled<Real> saturation_factor(const Real& temperature_k,
                                                         const SaturationLaw<Real>& law,
                                                         const Real& ideality) noexcept {
  const Real gap_k = values::elementary_charge_c / values::boltzmann_j_per_k * law.band_gap_ev;
  const Real exponent = law.temperature_power * logarithm(temperature_k / law.measured_at_k) +
                        gap_k * (1.0 / law.measured_at_k - 1.0 / temperature_k);
  const Real value = exponential(exponent / ideality);
  const Real exponent_per_k = (law.temperature_power + gap_k / temperature_k) / temperature_k;
  return {value, value * exponent_per_k / ideality};
}

/// Steps upwards by less than this share of the scale voltage are left alone: over them the
/// exponential bends by half a percent, and Newton's own convergence is better undisturbed.
inline constexpr double harmless_share = 0.1;

/// A step from far below starts this many scale voltages below the critical one, where the junction
/// carries picoamperes: from the critical voltage itself, with its milliamperes, a cold start
/// overshoots by amperes, and the loops of a whole amplifier never find back.
inline constexpr double first_scales = 20.0;

/// Downwards, a junction that conducts (no more than this many scale voltages below the critical
/// one) lets go over several steps; one that lets go at once leaves its loop without a slope.
inline constexpr double conducting_scales = 22.0;
inline constexpr double letting_go_scales = 1.5;
inline constexpr double harmless_share_downwards = 1.0;

template <class Real>
[[nodiscard]] inline Real limited_junction_voltage(const Real& proposed_v,
                                                   const Real& last_v,
                                                   const Real& scale_v,
                                                   const Real& critical_v) noexcept {
  const auto is_up = proposed_v > last_v;
  const Real first_v = critical_v - first_scales * scale_v;
  const Real start_v = select(last_v > first_v, last_v, first_v);
  const Real up_v = proposed_v - start_v;
  const Real down_v = last_v - proposed_v;
  const auto leaps = is_up && up_v > harmless_share * scale_v;
  const auto lets_go = !is_up && last_v > critical_v - conducting_scales * scale_v &&
                       down_v > harmless_share_downwards * scale_v;
  const auto is_limited = leaps || lets_go;
  if (!any(is_limited)) return proposed_v;
  const Real reach_v = select(leaps, scale_v, letting_go_scales * scale_v);
  const Real step_v = select(is_limited, select(leaps, up_v, down_v), Real(0.0));
  const Real gone_v = reach_v * logarithm_of_one_plus(step_v / reach_v);
  return select(is_limited, select(leaps, start_v + gone_v, last_v - gone_v), proposed_v);
}

template <class Real>
[[nodiscard]] inline Real critical_voltage(const Real& saturation_a, const Real& scale_v) noexcept {
  constexpr double root_2 = 1.4142135623730950488;
  return scale_v * logarithm(scale_v / (root_2 * saturation_a));
}

}  // namespace idlepoint::devices::law
