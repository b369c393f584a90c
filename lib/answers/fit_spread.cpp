#include "answers/fit_spread.hpp"

#include <algorithm>
#include <boost/math/tools/toms748_solve.hpp>
#include <cmath>
#include <cstdint>

#include "answers/predict_point.hpp"
#include "circuit/type_fields.hpp"

namespace idlepoint::answers {
namespace {

using circuit::PartType;
using circuit::PointQuantity;
using circuit::TypePoint;

/// The field that takes a quantity's window.
struct Taker {
  PointQuantity quantity;
  std::string_view field;
  bool needs_both_ends;  ///< A lone limit of a forward voltage is far from any part.
};

constexpr Taker takers[] = {
    {PointQuantity::gain, "gain", false},
    {PointQuantity::vbe, "saturation_current", true},
    {PointQuantity::vf, "saturation_current", true},
    {PointQuantity::vz, "zener_voltage", true},
    {PointQuantity::idss, "current_factor", true},
    {PointQuantity::vgs, "threshold_voltage", true},
};

/// The number of the field, all else as fitted, with which the type shows `wanted` at the point.
/// The field is sought as `nominal` times a factor, a threshold as nominal plus volts.
std::optional<double> field_for(const PartType& type,
                                const TypePoint& point,
                                const Taker& taker,
                                double wanted) {
  const double nominal = circuit::field_value(type, taker.field).value_or(0.0);
  const bool is_added = taker.field == "threshold_voltage";
  const auto number = [&](double x) { return is_added ? nominal + x : nominal * std::exp(x); };
  PartType moved = type;
  InnerVolts start;
  const auto excess = [&](double x) {
    circuit::set_field(moved, taker.field, number(x));
    const auto predicted = predict(moved.law, point, start);
    return predicted ? *predicted - wanted : std::nan("");
  };
  constexpr double widest = 12.0;
  double low = 0.0;
  double high = 0.0;
  const double at_nominal = excess(0.0);
  // Outwards in growing strides, both ways, until the sign changes.
  for (double stride = 0.05; stride < widest; stride *= 1.6) {
    for (const double side : {-stride, stride}) {
      const double there = excess(side);
      if (!std::isfinite(there) || there * at_nominal > 0.0) continue;
      low = std::min(0.0, side);
      high = std::max(0.0, side);
      std::uintmax_t steps = 100;
      const auto [a, b] = boost::math::tools::toms748_solve(
          excess, low, high, boost::math::tools::eps_tolerance<double>(40), steps);
      return number(0.5 * (a + b));
    }
  }
  return std::nullopt;
}

/// Keeps the end that is nearer to the nominal value.
void narrow(circuit::Spread& spread, double nominal, double end) {
  if (end < nominal) spread.min = std::max(end, spread.min.value_or(end));
  if (end > nominal) spread.max = std::min(end, spread.max.value_or(end));
}

}  // namespace

void set_spreads(const circuit::TypePoints& asked, TypeFit& fit) {
  std::map<std::string, circuit::Spread> found;
  for (const TypePoint& point : asked.points) {
    for (const Taker& taker : takers) {
      if (taker.quantity != point.quantity) continue;
      const std::string field(taker.field);
      if (asked.type.spreads.contains(field)) continue;
      if (taker.needs_both_ends && !(point.min && point.max)) continue;
      const auto nominal = circuit::field_value(fit.type, taker.field);
      if (!nominal) continue;
      for (const auto& end : {point.min, point.max}) {
        if (!end) continue;
        if (const auto number = field_for(fit.type, point, taker, *end)) {
          narrow(found[field], *nominal, *number);
        }
      }
    }
  }
  for (const auto& [field, spread] : found) {
    if (spread.min || spread.max) fit.type.spreads[field] = spread;
  }
}

}  // namespace idlepoint::answers
