#include "devices/bipolar.hpp"

#include <cmath>

#include "devices/exponential.hpp"

namespace idlepoint::devices {

namespace {

constexpr double breakdown_test_a = 10e-6;    ///< Current at which Uebo is defined.
constexpr double breakdown_alarm_a = 1e-6;    ///< From here on the part is over-stressed.
constexpr double smallest_early_term = 1e-3;  ///< w is continued below this.
constexpr double smallest_knee_term = 1e-6;   ///< 1 + 4h is continued below this.

// The pieces below are inlined by order: left to itself the compiler passes their structures
// through memory, and a transistor then takes 50 ns instead of 30.

/// One current of the law with its slopes by its own junction voltage and by temperature.
struct Term {
  double a = 0.0;
  double s = 0.0;
  double a_per_k = 0.0;
};

/// I (exp(x) - 1), x = voltage * per_scale. `log_u_per_k` is d(ln U)/dT, by which x falls.
[[gnu::always_inline]] inline Term junction_term(const Scaled& current,
                                                 const Growth& g,
                                                 double x,
                                                 double per_scale,
                                                 double log_u_per_k) noexcept {
  const double rise_a = current.value * g.slope;
  return {.a = current.value * g.less_one,
          .s = rise_a * per_scale,
          .a_per_k = current.per_k * g.less_one - rise_a * x * log_u_per_k};
}

[[gnu::always_inline]] inline void add(Term& sum, const Term& term) noexcept {
  sum.a += term.a;
  sum.s += term.s;
  sum.a_per_k += term.a_per_k;
}

/// `x` itself from `bound` up; below it a positive curve of the same value and slope there.
struct Continued {
  double value;
  double slope;
  bool in_range;
};

[[gnu::always_inline]] inline Continued continued_positive(double x, double bound) noexcept {
  if (x >= bound) return {x, 1.0, true};
  const double share = bound / (2.0 * bound - x);
  return {bound * share, share * share, false};
}

/// 1/q and its slopes.
struct InverseCharge {
  double value;
  double by_ube_per_v;
  double by_ubc_per_v;
  double per_k;
  bool in_range;
};

[[gnu::always_inline]] inline InverseCharge inverse_charge(
    const BipolarAt& at, const Term& f, const Term& r, double ube_v, double ubc_v) noexcept {
  const Continued w = continued_positive(
      1.0 - ubc_v * at.per_early_v - ube_v * at.per_inverse_early_v, smallest_early_term);
  const double w_by_ube = -w.slope * at.per_inverse_early_v;
  const double w_by_ubc = -w.slope * at.per_early_v;
  if (at.per_knee_a == 0.0 && at.per_inverse_knee_a == 0.0) {
    return {w.value, w_by_ube, w_by_ubc, 0.0, w.in_range};
  }
  const Continued square = continued_positive(
      1.0 + 4.0 * (f.a * at.per_knee_a + r.a * at.per_inverse_knee_a), smallest_knee_term);
  const double root = std::sqrt(square.value);
  const double per_product = 1.0 / (root * (1.0 + root));
  const double n = 2.0 * root * per_product;  // 2 / (1 + root)
  // dn/dh = -n^2/root times the slope of the continuation; w in front of it throughout.
  const double by_h = -w.value * n * 2.0 * per_product * square.slope;
  return {.value = w.value * n,
          .by_ube_per_v = w_by_ube * n + by_h * f.s * at.per_knee_a,
          .by_ubc_per_v = w_by_ubc * n + by_h * r.s * at.per_inverse_knee_a,
          .per_k = by_h * (f.a_per_k * at.per_knee_a + r.a_per_k * at.per_inverse_knee_a),
          .in_range = w.in_range && square.in_range};
}

/// What the law divides by, turned over once: one division for the scales, one for the gains.
struct Reciprocals {
  double u;            ///< 1/U.
  double be;           ///< 1/(m U).
  double bc;           ///< 1/(mi U).
  double log_u_per_k;  ///< d(ln U)/dT.
  double gain;         ///< 1/B.
  double inverse_gain;
};

[[gnu::always_inline]] inline Reciprocals reciprocals(const BipolarAt& at) noexcept {
  const double per_scales = 1.0 / (at.ideality * at.inverse_ideality * at.thermal_v.value);
  const double per_gains = 1.0 / (at.gain.value * at.inverse_gain.value);
  const double per_u = at.ideality * at.inverse_ideality * per_scales;
  return {.u = per_u,
          .be = at.inverse_ideality * per_scales,
          .bc = at.ideality * per_scales,
          .log_u_per_k = at.thermal_v.per_k * per_u,
          .gain = at.inverse_gain.value * per_gains,
          .inverse_gain = at.gain.value * per_gains};
}

/// A transport current's share in the base, I / gain.
[[gnu::always_inline]] inline Term divided(const Term& term,
                                           const Scaled& gain,
                                           double per_gain) noexcept {
  return {.a = term.a * per_gain,
          .s = term.s * per_gain,
          .a_per_k = (term.a_per_k - term.a * gain.per_k * per_gain) * per_gain};
}

/// Ibe without its breakdown.
[[gnu::always_inline]] inline Term base_emitter_current(const BipolarAt& at,
                                                        const Reciprocals& per,
                                                        const Term& f,
                                                        double ube_v) noexcept {
  Term sum = divided(f, at.gain, per.gain);
  if (at.recombination_a.value != 0.0) {
    const double per_scale = per.u / at.recombination_ideality;
    const double x = ube_v * per_scale;
    add(sum, junction_term(at.recombination_a, growth(x), x, per_scale, per.log_u_per_k));
  }
  return sum;
}

/// Ibc. The cut-off current has ideality 1 and shares the exponential of r where that has it too.
[[gnu::always_inline]] inline Term base_collector_current(const BipolarAt& at,
                                                          const Reciprocals& per,
                                                          const Term& r,
                                                          const Growth& g_bc,
                                                          double ubc_v) noexcept {
  Term sum = divided(r, at.inverse_gain, per.inverse_gain);
  if (at.collector_recombination_a.value != 0.0) {
    const double per_scale = per.u / at.collector_recombination_ideality;
    const double x = ubc_v * per_scale;
    add(sum, junction_term(at.collector_recombination_a, growth(x), x, per_scale, per.log_u_per_k));
  }
  if (at.cutoff_a.value != 0.0) {
    const double x = ubc_v * per.u;
    const Growth g = at.inverse_ideality == 1.0 ? g_bc : growth(x);
    add(sum, junction_term(at.cutoff_a, g, x, per.u, per.log_u_per_k));
  }
  return sum;
}

/// 10 uA [exp(-(Ube + Uebo)/U) - exp(-Uebo/U)], to be taken from Ibe.
[[gnu::always_inline]] inline Term breakdown_term(const BipolarAt& at,
                                                  const Reciprocals& per,
                                                  double ube_v) noexcept {
  const double x_at_rest = -at.breakdown_v * per.u;
  const double over = -ube_v * per.u;
  const Avalanche a = avalanche(over, x_at_rest);
  const double moved = (a.slope - a.slope_at_rest) * x_at_rest + a.slope * over;
  return {.a = breakdown_test_a * a.value,
          .s = -breakdown_test_a * a.slope * per.u,
          .a_per_k = -breakdown_test_a * per.log_u_per_k * moved};
}

}  // namespace

BipolarTangent evaluate_bipolar(const BipolarAt& at, double ube_v, double ubc_v) noexcept {
  const Reciprocals per = reciprocals(at);
  const double x_be = ube_v * per.be;
  const double x_bc = ubc_v * per.bc;
  const Growth g_be = growth(x_be);
  const Growth g_bc = growth(x_bc);
  const Term f = junction_term(at.saturation_a, g_be, x_be, per.be, per.log_u_per_k);
  const Term r = junction_term(at.saturation_a, g_bc, x_bc, per.bc, per.log_u_per_k);
  const InverseCharge c = inverse_charge(at, f, r, ube_v, ubc_v);
  const Term bc = base_collector_current(at, per, r, g_bc, ubc_v);
  Term be = base_emitter_current(at, per, f, ube_v);
  bool in_breakdown = false;
  if (at.has_breakdown) {
    const Term breakdown = breakdown_term(at, per, ube_v);
    add(be, {-breakdown.a, -breakdown.s, -breakdown.a_per_k});
    in_breakdown = breakdown.a >= breakdown_alarm_a;
  }
  const double net_a = f.a - r.a;
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

}  // namespace idlepoint::devices
