// The bipolar transistor's law for any Real of devices/elementary.hpp.
//
// Inlined into the hot loops of the scalar solver and of the lanes; conventions, symbols and source
// stand in devices/bipolar.hpp. What is skipped is skipped only where it would add exactly nothing.
#pragma once

#include "devices/bipolar.hpp"
#include "devices/junction_law.hpp"

namespace idlepoint::devices::law {

inline constexpr double breakdown_test_a = 10e-6;    ///< Current at which Uebo is defined.
inline constexpr double breakdown_alarm_a = 1e-6;    ///< From here on the part is over-stressed.
inline constexpr double smallest_early_term = 1e-3;  ///< w is continued below this.
inline constexpr double smallest_knee_term = 1e-6;   ///< 1 + 4h is continued below this.

// The pieces below are inlined by order: left to itself the compiler passes their structures
// through memory, and a transistor then takes 50 ns instead of 30.

/// One current of the law with its slopes by its own junction voltage and by temperature.
template <class Real>
struct Term {
  Real a;
  Real s;
  Real a_per_k;
};

/// I (exp(x) - 1), x = voltage * per_scale. `log_u_per_k` is d(ln U)/dT, by which x falls.
template <class Real>
[[gnu::always_inline]] inline Term<Real> junction_term(const BasicScaled<Real>& current,
                                                       const Growth<Real>& g,
                                                       const Real& x,
                                                       const Real& per_scale,
                                                       const Real& log_u_per_k) noexcept {
  const Real rise_a = current.value * g.slope;
  return {.a = current.value * g.less_one,
          .s = rise_a * per_scale,
          .a_per_k = current.per_k * g.less_one - rise_a * x * log_u_per_k};
}

template <class Real>
[[gnu::always_inline]] inline void add(Term<Real>& sum, const Term<Real>& term) noexcept {
  sum.a = sum.a + term.a;
  sum.s = sum.s + term.s;
  sum.a_per_k = sum.a_per_k + term.a_per_k;
}

/// `x` itself from `bound` up; below it a positive curve of the same value and slope there.
template <class Real>
struct Continued {
  Real value;
  Real slope;
  Mask<Real> in_range;
};

template <class Real>
[[gnu::always_inline]] inline Continued<Real> continued_positive(const Real& x,
                                                                 double bound) noexcept {
  const auto in_range = x >= bound;
  if (all(in_range)) return {x, Real(1.0), in_range};
  const Real share = bound / (2.0 * bound - select(in_range, Real(bound), x));
  return {select(in_range, x, bound * share), select(in_range, Real(1.0), share * share), in_range};
}

/// 1/q and its slopes.
template <class Real>
struct InverseCharge {
  Real value;
  Real by_ube_per_v;
  Real by_ubc_per_v;
  Real per_k;
  Mask<Real> in_range;
};

template <class Real>
[[gnu::always_inline]] inline InverseCharge<Real> inverse_charge(const BasicBipolarAt<Real>& at,
                                                                 const Term<Real>& f,
                                                                 const Term<Real>& r,
                                                                 const Real& ube_v,
                                                                 const Real& ubc_v) noexcept {
  const Continued<Real> w = continued_positive<Real>(
      1.0 - ubc_v * at.per_early_v - ube_v * at.per_inverse_early_v, smallest_early_term);
  const Real w_by_ube = -w.slope * at.per_inverse_early_v;
  const Real w_by_ubc = -w.slope * at.per_early_v;
  if (all(at.per_knee_a == 0.0 && at.per_inverse_knee_a == 0.0)) {
    return {w.value, w_by_ube, w_by_ubc, Real(0.0), w.in_range};
  }
  const Continued<Real> square = continued_positive<Real>(
      1.0 + 4.0 * (f.a * at.per_knee_a + r.a * at.per_inverse_knee_a), smallest_knee_term);
  const Real root = square_root(square.value);
  const Real per_product = 1.0 / (root * (1.0 + root));
  const Real n = 2.0 * root * per_product;  // 2 / (1 + root)
  // dn/dh = -n^2/root times the slope of the continuation; w in front of it throughout.
  const Real by_h = -w.value * n * 2.0 * per_product * square.slope;
  return {.value = w.value * n,
          .by_ube_per_v = w_by_ube * n + by_h * f.s * at.per_knee_a,
          .by_ubc_per_v = w_by_ubc * n + by_h * r.s * at.per_inverse_knee_a,
          .per_k = by_h * (f.a_per_k * at.per_knee_a + r.a_per_k * at.per_inverse_knee_a),
          .in_range = w.in_range && square.in_range};
}

/// What the law divides by, turned over once: one division for the scales, one for the gains.
template <class Real>
struct Reciprocals {
  Real u;            ///< 1/U.
  Real be;           ///< 1/(m U).
  Real bc;           ///< 1/(mi U).
  Real log_u_per_k;  ///< d(ln U)/dT.
  Real gain;         ///< 1/B.
  Real inverse_gain;
};

template <class Real>
[[gnu::always_inline]] inline Reciprocals<Real> reciprocals(
    const BasicBipolarAt<Real>& at) noexcept {
  const Real per_scales = 1.0 / (at.ideality * at.inverse_ideality * at.thermal_v.value);
  const Real per_gains = 1.0 / (at.gain.value * at.inverse_gain.value);
  const Real per_u = at.ideality * at.inverse_ideality * per_scales;
  return {.u = per_u,
          .be = at.inverse_ideality * per_scales,
          .bc = at.ideality * per_scales,
          .log_u_per_k = at.thermal_v.per_k * per_u,
          .gain = at.inverse_gain.value * per_gains,
          .inverse_gain = at.gain.value * per_gains};
}

/// A transport current's share in the base, I / gain.
template <class Real>
[[gnu::always_inline]] inline Term<Real> divided(const Term<Real>& term,
                                                 const BasicScaled<Real>& gain,
                                                 const Real& per_gain) noexcept {
  return {.a = term.a * per_gain,
          .s = term.s * per_gain,
          .a_per_k = (term.a_per_k - term.a * gain.per_k * per_gain) * per_gain};
}

/// Ibe without its breakdown.
template <class Real>
[[gnu::always_inline]] inline Term<Real> base_emitter_current(const BasicBipolarAt<Real>& at,
                                                              const Reciprocals<Real>& per,
                                                              const Term<Real>& f,
                                                              const Real& ube_v) noexcept {
  Term<Real> sum = divided(f, at.gain, per.gain);
  if (any(at.recombination_a.value != 0.0)) {
    const Real per_scale = per.u / at.recombination_ideality;
    const Real x = ube_v * per_scale;
    add(sum, junction_term(at.recombination_a, growth(x), x, per_scale, per.log_u_per_k));
  }
  return sum;
}

/// Ibc. The cut-off current has ideality 1 and shares the exponential of r where that has it too.
template <class Real>
[[gnu::always_inline]] inline Term<Real> base_collector_current(const BasicBipolarAt<Real>& at,
                                                                const Reciprocals<Real>& per,
                                                                const Term<Real>& r,
                                                                const Growth<Real>& g_bc,
                                                                const Real& ubc_v) noexcept {
  Term<Real> sum = divided(r, at.inverse_gain, per.inverse_gain);
  if (any(at.collector_recombination_a.value != 0.0)) {
    const Real per_scale = per.u / at.collector_recombination_ideality;
    const Real x = ubc_v * per_scale;
    add(sum, junction_term(at.collector_recombination_a, growth(x), x, per_scale, per.log_u_per_k));
  }
  if (any(at.cutoff_a.value != 0.0)) {
    const Real x = ubc_v * per.u;
    const Growth<Real> g = all(at.inverse_ideality == 1.0) ? g_bc : growth(x);
    add(sum, junction_term(at.cutoff_a, g, x, per.u, per.log_u_per_k));
  }
  return sum;
}

/// 10 uA [exp(-(Ube + Uebo)/U) - exp(-Uebo/U)], to be taken from Ibe.
template <class Real>
[[gnu::always_inline]] inline Term<Real> breakdown_term(const BasicBipolarAt<Real>& at,
                                                        const Reciprocals<Real>& per,
                                                        const Real& ube_v) noexcept {
  const Real x_at_rest = -at.breakdown_v * per.u;
  const Real over = -ube_v * per.u;
  const Avalanche<Real> a = avalanche(over, x_at_rest);
  const Real moved = (a.slope - a.slope_at_rest) * x_at_rest + a.slope * over;
  return {.a = breakdown_test_a * a.value,
          .s = -breakdown_test_a * a.slope * per.u,
          .a_per_k = -breakdown_test_a * per.log_u_per_k * moved};
}

template <class Real>
[[gnu::always_inline]] inline BasicBipolarTangent<Real> evaluate_bipolar(
    const BasicBipolarAt<Real>& at, const Real& ube_v, const Real& ubc_v) noexcept {
  const Reciprocals<Real> per = reciprocals(at);
  const Real x_be = ube_v * per.be;
  const Real x_bc = ubc_v * per.bc;
  const Growth<Real> g_be = growth(x_be);
  const Growth<Real> g_bc = growth(x_bc);
  const Term<Real> f = junction_term(at.saturation_a, g_be, x_be, per.be, per.log_u_per_k);
  const Term<Real> r = junction_term(at.saturation_a, g_bc, x_bc, per.bc, per.log_u_per_k);
  const InverseCharge<Real> c = inverse_charge(at, f, r, ube_v, ubc_v);
  const Term<Real> bc = base_collector_current(at, per, r, g_bc, ubc_v);
  Term<Real> be = base_emitter_current(at, per, f, ube_v);
  Mask<Real> in_breakdown(false);
  if (at.has_breakdown) {
    const Term<Real> breakdown = breakdown_term(at, per, ube_v);
    add(be, {-breakdown.a, -breakdown.s, -breakdown.a_per_k});
    in_breakdown = breakdown.a >= breakdown_alarm_a;
  }
  const Real net_a = f.a - r.a;
  return {.collector_a = net_a * c.value - bc.a,
          .base_a = be.a + bc.a,
          .collector_by_ube_s = f.s * c.value + net_a * c.by_ube_per_v,
          .collector_by_ubc_s = net_a * c.by_ubc_per_v - r.s * c.value - bc.s,
          .base_by_ube_s = be.s,
          .base_by_ubc_s = bc.s,
          .collector_a_per_k = (f.a_per_k - r.a_per_k) * c.value + net_a * c.per_k - bc.a_per_k,
          .base_a_per_k = be.a_per_k + bc.a_per_k,
          .forward_a = f.a,
          .reverse_a = r.a,
          .in_range = c.in_range,
          .in_breakdown = in_breakdown};
}

/// A current that follows a junction factor and falls with the gain: I2 and I3.
template <class Real>
[[nodiscard]] inline BasicScaled<Real> recombination_at(const BasicBipolarData<Real>& data,
                                                        const Real& current_a,
                                                        const Real& ideality,
                                                        const Real& temperature_k,
                                                        const Real& gain_factor) noexcept {
  if (all(current_a == 0.0)) return {};
  const BasicScaled<Real> s = saturation_factor<Real>(
      temperature_k, {data.measured_at_k, data.temperature_power, data.band_gap_ev}, ideality);
  const Real value = current_a * s.value / gain_factor;
  return {value,
          current_a * s.per_k / gain_factor - value * data.gain_temperature_power / temperature_k};
}

template <class Real>
[[nodiscard]] inline BasicScaled<Real> cutoff_at(const BasicBipolarData<Real>& data,
                                                 const Real& temperature_k) noexcept {
  if (all(data.cutoff_current_a == 0.0)) return {};
  constexpr double ln_2 = 0.69314718055994530942;
  const Real rate_per_k = ln_2 / data.cutoff_doubles_every_k;
  const Real value =
      data.cutoff_current_a * exponential((temperature_k - data.measured_at_k) * rate_per_k);
  return {value, value * rate_per_k};
}

/// 1/x, 0 where there is none.
template <class Real>
[[nodiscard]] inline Real reciprocal(const std::optional<Real>& x) noexcept {
  return x ? Real(1.0 / *x) : Real(0.0);
}

template <class Real>
[[nodiscard]] inline BasicBipolarAt<Real> bipolar_at(const BasicBipolarData<Real>& data,
                                                     const Real& temperature_k) noexcept {
  const BasicScaled<Real> s = saturation_factor<Real>(
      temperature_k, {data.measured_at_k, data.temperature_power, data.band_gap_ev}, Real(1.0));
  const Real gain_factor =
      power(Real(temperature_k / data.measured_at_k), data.gain_temperature_power);
  const Real gain_factor_per_k = gain_factor * data.gain_temperature_power / temperature_k;
  BasicBipolarAt<Real> at{};
  at.saturation_a = {data.saturation_current_a * s.value, data.saturation_current_a * s.per_k};
  at.gain = {data.gain * gain_factor, data.gain * gain_factor_per_k};
  at.inverse_gain = {data.inverse_gain * gain_factor, data.inverse_gain * gain_factor_per_k};
  at.thermal_v = {temperature_k * values::thermal_voltage_v(1.0),
                  Real(values::thermal_voltage_v(1.0))};
  at.ideality = data.ideality;
  at.inverse_ideality = data.inverse_ideality;
  at.per_early_v = reciprocal(data.early_voltage_v);
  at.per_inverse_early_v = reciprocal(data.inverse_early_voltage_v);
  at.per_knee_a = reciprocal(data.knee_current_a);
  at.per_inverse_knee_a = reciprocal(data.inverse_knee_current_a);
  at.recombination_ideality = data.recombination_ideality;
  at.recombination_a = recombination_at(
      data, data.recombination_current_a, data.recombination_ideality, temperature_k, gain_factor);
  at.collector_recombination_ideality = data.collector_recombination_ideality;
  at.collector_recombination_a = recombination_at(data,
                                                  data.collector_recombination_current_a,
                                                  data.collector_recombination_ideality,
                                                  temperature_k,
                                                  gain_factor);
  at.cutoff_a = cutoff_at(data, temperature_k);
  at.has_breakdown = data.emitter_base_breakdown_voltage_v.has_value();
  at.breakdown_v = data.emitter_base_breakdown_voltage_v.value_or(Real(0.0));
  return at;
}

}  // namespace idlepoint::devices::law
