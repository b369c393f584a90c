#include "devices/junction.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "devices/exponential.hpp"
#include "values/constants.hpp"

namespace idlepoint::devices {

namespace {

/// Steps upwards by less than this share of the scale voltage are left alone: over them the
/// exponential bends by half a percent, and Newton's own convergence is better undisturbed.
constexpr double harmless_share = 0.1;

/// A step from far below starts this many scale voltages below the critical one, where the junction
/// carries picoamperes: from the critical voltage itself, with its milliamperes, a cold start
/// overshoots by amperes, and the loops of a whole amplifier never find back.
constexpr double first_scales = 20.0;

/// Downwards, a junction that conducts (no more than this many scale voltages below the critical
/// one) lets go over several steps; one that lets go at once leaves its loop without a slope.
constexpr double conducting_scales = 22.0;
constexpr double letting_go_scales = 1.5;
constexpr double harmless_share_downwards = 1.0;

}  // namespace

GuardedExponential guarded_exponential(double x) noexcept { return guarded(x); }

JunctionTangent evaluate_junction(const JunctionAt& at, double voltage_v) noexcept {
  const double per_scale = 1.0 / at.scale_v;
  const double x = voltage_v * per_scale;
  const Growth g = growth(x);
  const double conductance_s = at.saturation_a * g.slope * per_scale;
  return {
      .current_a = at.saturation_a * g.less_one,
      .conductance_s = conductance_s,
      .slope_a_per_k = at.saturation_a_per_k * g.less_one - conductance_s * x * at.scale_v_per_k};
}

TemperatureFactor saturation_factor(double temperature_k,
                                    double measured_at_k,
                                    double temperature_power,
                                    double band_gap_ev,
                                    double ideality) noexcept {
  const double gap_k = values::elementary_charge_c / values::boltzmann_j_per_k * band_gap_ev;
  const double exponent = temperature_power * std::log(temperature_k / measured_at_k) +
                          gap_k * (1.0 / measured_at_k - 1.0 / temperature_k);
  const double value = std::exp(exponent / ideality);
  const double exponent_per_k = (temperature_power + gap_k / temperature_k) / temperature_k;
  return {.value = value, .slope_per_k = value * exponent_per_k / ideality};
}

double limited_junction_voltage(double proposed_v,
                                double last_v,
                                double scale_v,
                                double critical_v) noexcept {
  if (proposed_v > last_v) {
    const double start_v = std::max(last_v, critical_v - first_scales * scale_v);
    const double step_v = proposed_v - start_v;
    if (!(step_v > harmless_share * scale_v)) return proposed_v;
    return start_v + scale_v * std::log1p(step_v / scale_v);
  }
  const double step_v = last_v - proposed_v;
  const bool conducts = last_v > critical_v - conducting_scales * scale_v;
  if (!conducts || !(step_v > harmless_share_downwards * scale_v)) return proposed_v;
  const double reach_v = letting_go_scales * scale_v;
  return last_v - reach_v * std::log1p(step_v / reach_v);
}

double critical_voltage(double saturation_a, double scale_v) noexcept {
  return scale_v * std::log(scale_v / (std::numbers::sqrt2 * saturation_a));
}

}  // namespace idlepoint::devices
