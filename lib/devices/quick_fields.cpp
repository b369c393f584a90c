// One reading of a tester turned into a field: `vbe=` of a transistor and `vgs=` of a MOSFET.
//
// Both equations have one root: more saturation current, or less threshold, always draws more.
// Where the terminal resistances split the current, the base current is the outer unknown.
// The roots are found in the logarithm of the current, in which the laws are nearly straight.
#include <algorithm>
#include <boost/math/tools/toms748_solve.hpp>
#include <cmath>
#include <cstdint>
#include <limits>

#include "devices/bipolar.hpp"
#include "devices/fet.hpp"
#include "devices/junction.hpp"

namespace idlepoint::devices {

namespace {

constexpr std::uintmax_t most_steps = 200;
constexpr double closeness = 1e-9;  ///< Of the solved current to the one asked for.

/// The root of a function that changes sign between `low` and `high`, to the last bits.
template <typename Function>
std::optional<double> root_between(const Function& function, double low, double high) {
  const double at_low = function(low);
  const double at_high = function(high);
  if (at_low == 0.0) return low;
  if (at_high == 0.0) return high;
  if (!(at_low * at_high < 0.0)) return std::nullopt;
  std::uintmax_t steps = most_steps;
  const auto [a, b] = boost::math::tools::toms748_solve(
      function, low, high, at_low, at_high, boost::math::tools::eps_tolerance<double>(52), steps);
  return std::abs(function(a)) < std::abs(function(b)) ? a : b;
}

/// The root of a rising function, sought outwards from `guess` in growing strides.
template <typename Function>
std::optional<double> rising_root(const Function& function, double guess, double stride) {
  constexpr int most_strides = 60;
  double low = guess;
  double high = guess;
  for (int i = 0; function(low) > 0.0; ++i, stride *= 1.5) {
    if (i == most_strides) return std::nullopt;
    high = low;
    low -= stride;
  }
  for (int i = 0; function(high) < 0.0; ++i, stride *= 1.5) {
    if (i == most_strides) return std::nullopt;
    low = high;
    high += stride;
  }
  return low == high ? low : root_between(function, low, high);
}

/// A transistor with base and collector joined that takes a total current into the joined lead.
struct JoinedLead {
  BipolarAt at;  ///< Its saturation current is overwritten by the search.
  double lead_v;
  double total_a;
  double base_ohm, collector_ohm, emitter_ohm;

  [[nodiscard]] double ube_v(double base_a) const {
    return lead_v - base_a * base_ohm - total_a * emitter_ohm;
  }
  [[nodiscard]] double ubc_v(double base_a) const {
    return (total_a - base_a) * collector_ohm - base_a * base_ohm;
  }

  [[nodiscard]] BipolarTangent currents(double saturation_a, double base_a) const {
    BipolarAt with = at;
    with.saturation_a.value = saturation_a;
    return evaluate_bipolar(with, ube_v(base_a), ubc_v(base_a));
  }

  /// The saturation current that makes base and collector take the total, their split assumed.
  [[nodiscard]] std::optional<double> saturation_for_total(double base_a) const {
    const double x = ube_v(base_a) / (at.ideality * at.thermal_v.value);
    if (!(x > 0.0)) return std::nullopt;
    const BipolarTangent rest = currents(0.0, base_a);
    const double wanted_a = total_a - rest.collector_a - rest.base_a;
    if (!(wanted_a > 0.0)) return std::nullopt;
    const auto excess = [&](double log_saturation) {
      const BipolarTangent now = currents(std::exp(log_saturation), base_a);
      const double drawn_a = now.collector_a - rest.collector_a + (now.base_a - rest.base_a);
      return std::log(std::max(drawn_a, std::numeric_limits<double>::min()) / wanted_a);
    };
    const double guess = std::log(wanted_a) - std::log(std::expm1(std::min(x, largest_exponent)));
    const auto log_saturation = rising_root(excess, guess, 1.0);
    if (!log_saturation) return std::nullopt;
    return std::exp(*log_saturation);
  }

  /// Assumed base current less the one the law then gives: rises with the assumed one. Where no
  /// saturation current fits, the base was assumed to take too little, or so much that its
  /// junction is no longer forward.
  [[nodiscard]] double base_excess(double base_a) const {
    if (!(ube_v(base_a) > 0.0)) return total_a;
    const auto saturation_a = saturation_for_total(base_a);
    if (!saturation_a) return -total_a;
    return base_a - currents(*saturation_a, base_a).base_a;
  }
};

}  // namespace

std::optional<double> saturation_current_from_vbe(const BipolarData& data,
                                                  double vbe_v,
                                                  double current_a) {
  if (!(current_a > 0.0)) return std::nullopt;
  BipolarData unit = data;
  unit.saturation_current_a = 1.0;
  const JoinedLead lead{.at = bipolar_at(unit, data.measured_at_k),
                        .lead_v = vbe_v,
                        .total_a = current_a,
                        .base_ohm = data.base_resistance_ohm,
                        .collector_ohm = data.collector_resistance_ohm,
                        .emitter_ohm = data.emitter_resistance_ohm};
  double base_a = 0.0;
  if (lead.base_ohm > 0.0 || lead.collector_ohm > 0.0) {
    const auto split =
        root_between([&](double assumed_a) { return lead.base_excess(assumed_a); }, 0.0, current_a);
    if (!split) return std::nullopt;
    base_a = *split;
  }
  const auto saturation_a = lead.saturation_for_total(base_a);
  if (!saturation_a || !std::isfinite(*saturation_a)) return std::nullopt;
  const BipolarTangent check = lead.currents(*saturation_a, base_a);
  const double missed_a = check.collector_a + check.base_a - current_a;
  if (!check.in_range || std::abs(missed_a) > closeness * current_a) return std::nullopt;
  return saturation_a;
}

std::optional<double> threshold_from_vgs(const FetData& data, double vgs_v, double current_a) {
  const double ugs_v = vgs_v - current_a * data.source_resistance_ohm;
  const double uds_v = ugs_v - current_a * data.drain_resistance_ohm;
  FetAt at = fet_at(data, data.measured_at_k);
  // The body diode is reversed here and takes its leakage beside the channel.
  const double channel_a =
      current_a + (at.has_diode ? evaluate_junction(at.diode, -uds_v).current_a : 0.0);
  if (!(uds_v > 0.0) || !(channel_a > 0.0)) return std::nullopt;
  const auto excess = [&](double over_v) {
    at.threshold_v = ugs_v - over_v;
    const double drawn_a = evaluate_fet(at, ugs_v, uds_v).drain_a;
    return std::log(std::max(drawn_a, std::numeric_limits<double>::min()) / channel_a);
  };
  const double guess_v = std::sqrt(2.0 * at.slope_factor * channel_a / at.factor_a_per_v2);
  const auto over_v = rising_root(excess, guess_v, at.slope_factor * at.thermal_v);
  if (!over_v) return std::nullopt;
  return ugs_v - *over_v;
}

}  // namespace idlepoint::devices
