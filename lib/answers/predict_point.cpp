#include "answers/predict_point.hpp"

#include <algorithm>
#include <boost/math/tools/toms748_solve.hpp>
#include <cmath>
#include <cstdint>

namespace idlepoint::answers {
namespace {

using circuit::PointQuantity;
using circuit::TypePoint;
using devices::BipolarAt;
using devices::BipolarData;
using devices::BipolarTangent;
using devices::DiodeData;
using devices::FetAt;
using devices::FetData;

constexpr int most_newton_steps = 80;
constexpr int most_halvings = 40;
constexpr double settled_within = 1e-12;  ///< Of both balances: a logarithm, or volts.
constexpr double close_enough = 1e-9;
constexpr double longest_step = 3.0;  ///< Of a junction voltage, in units of kT/q.

double temperature_of(const TypePoint& point, double measured_at_k) {
  return point.temperature_k.value_or(measured_at_k);
}

/// The root of a rising function between `low` and `high`; none where it does not change sign.
template <typename Function>
std::optional<double> root_between(const Function& function, double low, double high) {
  const double at_low = function(low);
  const double at_high = function(high);
  if (!(at_low <= 0.0) || !(at_high >= 0.0)) return std::nullopt;
  if (at_low == 0.0) return low;
  if (at_high == 0.0) return high;
  std::uintmax_t steps = most_newton_steps;
  const auto [a, b] = boost::math::tools::toms748_solve(
      function, low, high, at_low, at_high, boost::math::tools::eps_tolerance<double>(50), steps);
  return 0.5 * (a + b);
}

// ---- bipolar
// -------------------------------------------------------------------------------------

/// Two balances of the inner junction voltages and their slopes.
struct Balance {
  double first = 0.0;   ///< ln(Ic / the collector current asked for).
  double second = 0.0;  ///< Of base current or of volts.
  double second_by_ube = 0.0;
  double second_by_ubc = 0.0;
  BipolarTangent tangent;
  bool is_defined = false;
};

/// A transistor at a collector current, and at a collector-emitter voltage or a base current.
struct Biased {
  const BipolarData& data;
  BipolarAt at;
  double collector_a;
  std::optional<double> base_a;
  double lead_v = 0.0;  ///< Collector to emitter, where no base current is given.

  [[nodiscard]] Balance balance(double ube_v, double ubc_v) const {
    Balance now;
    now.tangent = evaluate_bipolar(at, ube_v, ubc_v);
    const BipolarTangent& t = now.tangent;
    now.is_defined = t.collector_a > 0.0 && (!base_a || t.base_a > 0.0) && t.in_range;
    if (!now.is_defined) return now;
    now.first = std::log(t.collector_a / collector_a);
    if (base_a) {
      now.second = std::log(t.base_a / *base_a);
      now.second_by_ube = t.base_by_ube_s / t.base_a;
      now.second_by_ubc = t.base_by_ubc_s / t.base_a;
    } else {
      now.second = ube_v - ubc_v + collector_a * data.collector_resistance_ohm +
                   (collector_a + t.base_a) * data.emitter_resistance_ohm - lead_v;
      now.second_by_ube = 1.0 + t.base_by_ube_s * data.emitter_resistance_ohm;
      now.second_by_ubc = -1.0 + t.base_by_ubc_s * data.emitter_resistance_ohm;
    }
    return now;
  }

  /// From f = Ic (1 + Ic/Ik), high injection included; bottomed where a base current is given.
  [[nodiscard]] std::array<double, 2> guess() const {
    const double f_a = collector_a * (1.0 + collector_a * at.per_knee_a);
    const double u_v = at.thermal_v.value;
    const double ube_v = at.ideality * u_v * std::log1p(f_a / at.saturation_a.value);
    const double inner_v =
        lead_v - collector_a * (data.collector_resistance_ohm + data.emitter_resistance_ohm);
    return {ube_v, ube_v - (base_a ? 4.0 * u_v : std::max(inner_v, u_v))};
  }
};

/// One Newton step, kept where the laws are nearly straight and both currents have their sign.
bool take_step(const Biased& biased, std::array<double, 2>& v, Balance& now) {
  const double first_by_ube = now.tangent.collector_by_ube_s / now.tangent.collector_a;
  const double first_by_ubc = now.tangent.collector_by_ubc_s / now.tangent.collector_a;
  const double determinant = first_by_ube * now.second_by_ubc - first_by_ubc * now.second_by_ube;
  if (determinant == 0.0 || !std::isfinite(determinant)) return false;
  double ube_step = -(now.first * now.second_by_ubc - first_by_ubc * now.second) / determinant;
  double ubc_step = -(first_by_ube * now.second - now.first * now.second_by_ube) / determinant;
  const double most_v = longest_step * biased.at.thermal_v.value;
  ube_step = std::clamp(ube_step, -most_v, most_v);
  // Backwards the collector junction is nearly straight; forwards it is an exponential.
  ubc_step = std::min(ubc_step, std::max(0.0, -v[1]) + most_v);
  if (v[1] > 0.0) ubc_step = std::max(ubc_step, -v[1] - most_v);
  for (int halving = 0; halving < most_halvings; ++halving) {
    const Balance next = biased.balance(v[0] + ube_step, v[1] + ubc_step);
    if (next.is_defined) {
      v = {v[0] + ube_step, v[1] + ubc_step};
      now = next;
      return true;
    }
    ube_step *= 0.5;
    ubc_step *= 0.5;
  }
  return false;
}

/// The tangent at the balanced inner voltages, which are left in `v`.
std::optional<BipolarTangent> settle(const Biased& biased, std::array<double, 2>& v) {
  Balance now = biased.balance(v[0], v[1]);
  if (!now.is_defined) return std::nullopt;
  double worst = 0.0;
  for (int step = 0; step < most_newton_steps; ++step) {
    worst = std::max(std::abs(now.first), std::abs(now.second));
    if (worst < settled_within || !take_step(biased, v, now)) break;
  }
  worst = std::max(std::abs(now.first), std::abs(now.second));
  if (!(worst < close_enough)) return std::nullopt;
  return now.tangent;
}

std::optional<BipolarTangent> settle_from(const Biased& biased, InnerVolts& start) {
  if (start.is_known) {
    if (const auto found = settle(biased, start.v)) return found;
  }
  start.v = biased.guess();
  const auto found = settle(biased, start.v);
  start.is_known = found.has_value();
  return found;
}

/// Collector-base current at `vcb`, the emitter open: base and collector currents sum to nothing.
std::optional<double> icbo(const BipolarAt& at, double vcb_v) {
  constexpr double widest_v = 0.6;
  const auto sum = [&](double ube_v) {
    const BipolarTangent now = evaluate_bipolar(at, ube_v, -vcb_v);
    return now.collector_a + now.base_a;
  };
  const auto ube_v = root_between(sum, -widest_v, widest_v);
  if (!ube_v) return std::nullopt;
  return evaluate_bipolar(at, *ube_v, -vcb_v).collector_a;
}

std::optional<double> if_positive(double value) {
  return value > 0.0 && std::isfinite(value) ? std::optional(value) : std::nullopt;
}

std::optional<double> predict_bipolar(const BipolarData& data,
                                      const TypePoint& point,
                                      InnerVolts& start) {
  const BipolarAt at = bipolar_at(data, temperature_of(point, data.measured_at_k));
  if (point.quantity == PointQuantity::icbo) return icbo(at, point.at[0]);
  Biased biased{.data = data, .at = at, .collector_a = point.at[0], .base_a = {}};
  const bool bottomed =
      point.quantity == PointQuantity::vce_sat || point.quantity == PointQuantity::vbe_sat;
  (bottomed ? biased.base_a.emplace() : biased.lead_v) = point.at[1];
  const auto found = settle_from(biased, start);
  if (!found) return std::nullopt;
  const double emitter_v = (found->collector_a + found->base_a) * data.emitter_resistance_ohm;
  switch (point.quantity) {
    case PointQuantity::gain:
      return if_positive(point.at[0] / found->base_a);
    case PointQuantity::vce_sat:
      return if_positive(start.v[0] - start.v[1] + emitter_v +
                         found->collector_a * data.collector_resistance_ohm);
    default:
      return if_positive(start.v[0] + emitter_v + found->base_a * data.base_resistance_ohm);
  }
}

// ---- diode
// ---------------------------------------------------------------------------------------

/// The junction voltage at a current, from a close guess.
std::optional<double> junction_voltage(const devices::DiodeAt& at, double current_a, double v) {
  for (int step = 0; step < most_newton_steps; ++step) {
    const devices::JunctionTangent now = evaluate_diode(at, v);
    if (!(now.conductance_s > 0.0)) return std::nullopt;
    const double move_v = (current_a - now.current_a) / now.conductance_s;
    const double scale_v = current_a > 0.0 ? at.forward.scale_v : at.zener_scale_v;
    v += std::clamp(move_v, -scale_v, scale_v);
    if (std::abs(move_v) < settled_within) return v;
  }
  return std::nullopt;
}

std::optional<double> predict_diode(const DiodeData& data, const TypePoint& point) {
  const devices::DiodeAt at = diode_at(data, temperature_of(point, data.measured_at_k));
  const double drop_v = point.at[0] * data.series_resistance_ohm;
  if (point.quantity == PointQuantity::vf) {
    const double guess_v = at.forward.scale_v * std::log1p(point.at[0] / at.forward.saturation_a);
    const auto v = junction_voltage(at, point.at[0], guess_v);
    return v ? std::optional(*v + drop_v) : std::nullopt;
  }
  if (point.quantity == PointQuantity::vz) {
    if (!at.has_zener) return std::nullopt;
    const double guess_v = at.zener_v + at.zener_scale_v * std::log(point.at[0] / at.zener_test_a);
    const auto v = junction_voltage(at, -point.at[0], -guess_v);
    return v ? std::optional(-*v + drop_v) : std::nullopt;
  }
  // Behind the series resistance: what passes backwards drops next to nothing there.
  const auto missing = [&](double inner_v) {
    return inner_v - evaluate_diode(at, -inner_v).current_a * data.series_resistance_ohm -
           point.at[0];
  };
  const auto inner_v = root_between(missing, 0.0, point.at[0]);
  if (!inner_v) return std::nullopt;
  return if_positive(-evaluate_diode(at, -*inner_v).current_a);
}

// ---- field effect
// --------------------------------------------------------------------------------

/// Drain current at the leads' voltages: it falls as the current assumed in the resistances rises.
std::optional<double> drain_current(const FetData& data,
                                    const FetAt& at,
                                    double vgs_v,
                                    double vds_v) {
  const double source_ohm = data.source_resistance_ohm;
  const double both_ohm = source_ohm + data.drain_resistance_ohm;
  const auto excess = [&](double a) {
    return a - evaluate_fet(at, vgs_v - a * source_ohm, vds_v - a * both_ohm).drain_a;
  };
  const double most_a = evaluate_fet(at, vgs_v, vds_v).drain_a;
  const auto current_a = root_between(excess, 0.0, most_a);
  return current_a ? if_positive(*current_a) : std::nullopt;
}

double log_ratio(double current_a, double asked_a) {
  constexpr double least_a = 1e-300;
  return std::log(std::max(current_a, least_a) / asked_a);
}

/// Gate voltage above the threshold for a drain current. The logarithm of the current is concave in
/// it: Newton's steps from below never pass the root.
std::optional<double> gate_over_threshold(const FetAt& at, double uds_v, double current_a) {
  if (!(uds_v > 0.0)) return std::nullopt;
  const double scale_v = 2.0 * at.slope_factor * at.thermal_v;
  const double full_a = 2.0 * at.slope_factor * at.thermal_v * at.thermal_v * at.factor_a_per_v2;
  // From weak inversion, where Id = full exp(2 x), or strong, where it is full x^2.
  const double root = std::sqrt(current_a / full_a);
  double over_v = scale_v * (root < 1.0 ? std::log(root) : root - 1.0);
  for (int step = 0; step < most_newton_steps; ++step) {
    const devices::FetTangent now = evaluate_fet(at, at.threshold_v + over_v, uds_v);
    if (!(now.drain_a > 0.0) || !(now.by_ugs_s > 0.0)) return std::nullopt;
    const double move_v = std::log(current_a / now.drain_a) * now.drain_a / now.by_ugs_s;
    over_v += move_v;
    if (std::abs(move_v) < settled_within * (1.0 + std::abs(over_v))) return over_v;
  }
  return std::nullopt;
}

std::optional<double> predict_fet(const FetData& data, const TypePoint& point) {
  constexpr double widest_drain_v = 1e4;
  const FetAt at = fet_at(data, temperature_of(point, data.measured_at_k));
  if (point.quantity == PointQuantity::idss) return drain_current(data, at, 0.0, point.at[0]);
  if (point.quantity == PointQuantity::id) {
    return drain_current(data, at, point.at[0], point.at[1]);
  }
  const double current_a = point.at[0];
  const double source_v = current_a * data.source_resistance_ohm;
  const double drain_v = current_a * data.drain_resistance_ohm;
  if (point.quantity == PointQuantity::vgs) {
    const auto over_v = gate_over_threshold(at, point.at[1] - source_v - drain_v, current_a);
    return over_v ? std::optional(at.threshold_v + *over_v + source_v) : std::nullopt;
  }
  const auto excess = [&](double uds_v) {
    return log_ratio(evaluate_fet(at, point.at[1] - source_v, uds_v).drain_a, current_a);
  };
  const auto uds_v = root_between(excess, 0.0, widest_drain_v);
  if (!uds_v) return std::nullopt;
  return *uds_v + source_v + drain_v;
}

}  // namespace

std::optional<double> predict(const Law& law, const TypePoint& point, InnerVolts& start) {
  if (const auto* diode = std::get_if<DiodeData>(&law)) return predict_diode(*diode, point);
  if (const auto* bipolar = std::get_if<BipolarData>(&law)) {
    return predict_bipolar(*bipolar, point, start);
  }
  return predict_fet(std::get<FetData>(law), point);
}

}  // namespace idlepoint::answers
