#include "answers/fit_targets.hpp"

#include <algorithm>
#include <cmath>

namespace idlepoint::answers {
namespace {

using circuit::TypePoint;

constexpr double usual_fraction = 0.05;
constexpr double usual_volts = 0.010;
constexpr double usual_volts_fraction = 0.01;
constexpr double log_margin = 0.01;
constexpr double volts_margin = 0.002;

double usual_spread(const TypePoint& point, const FitTarget& target, double value) {
  if (point.within_fraction) {
    return target.is_logarithmic ? *point.within_fraction
                                 : *point.within_fraction * std::abs(value);
  }
  if (point.within) return target.is_logarithmic ? *point.within / value : *point.within;
  if (target.is_logarithmic) return usual_fraction;
  return std::max(usual_volts, usual_volts_fraction * std::abs(value));
}

bool is_written(const TypePoint& point) { return point.within || point.within_fraction; }

/// Never more than keeps the value itself, and the middle of the window, inside.
double margin_of(const FitTarget& target) {
  double margin = target.is_logarithmic ? log_margin : volts_margin;
  if (target.low && target.high) margin = std::min(margin, 0.1 * (*target.high - *target.low));
  if (target.aim && target.low) margin = std::min(margin, *target.aim - *target.low);
  if (target.aim && target.high) margin = std::min(margin, *target.high - *target.aim);
  return std::max(margin, 0.0);
}

}  // namespace

FitTarget target_of(const TypePoint& point) {
  FitTarget target;
  target.is_logarithmic = circuit::facts(point.quantity).unit != values::Unit::volt;
  if (point.min) target.low = scaled(target, *point.min);
  if (point.max) target.high = scaled(target, *point.max);
  if (point.value) {
    target.aim = scaled(target, *point.value);
    target.spread = usual_spread(point, target, *point.value);
  } else if (target.low && target.high) {
    target.aim = 0.5 * (*target.low + *target.high);
    target.spread = is_written(point) ? usual_spread(point, target, unscaled(target, *target.aim))
                                      : (*target.high - *target.low) / std::sqrt(12.0);
    if (!(target.spread > 0.0)) target.spread = usual_spread(point, target, *point.min);
  }
  target.margin = margin_of(target);
  return target;
}

double scaled(const FitTarget& target, double value) {
  return target.is_logarithmic ? std::log(value) : value;
}

double unscaled(const FitTarget& target, double number) {
  return target.is_logarithmic ? std::exp(number) : number;
}

}  // namespace idlepoint::answers
