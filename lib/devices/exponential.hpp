// The exponential as the device laws use it: safe for any argument, inlined into the hot loops.
//
// junction.hpp offers the same guard as an ordinary function; this header keeps the one definition
// where the compiler can see through it. Everything here is pure.
// Source: the guard is this project's own (docs/models.md, "Outside the range of a law").
#pragma once

#include <cmath>

#include "devices/junction.hpp"

namespace idlepoint::devices {

/// exp(80), where every exponential goes over into its tangent.
inline constexpr double largest_exponential = 5.540622384393510053e34;

/// exp(x) with the tangent above `largest_exponent`.
[[nodiscard]] inline GuardedExponential guarded(double x) noexcept {
  if (x > largest_exponent) {
    return {largest_exponential * (1.0 + (x - largest_exponent)), largest_exponential};
  }
  const double value = std::exp(x);
  return {value, value};
}

/// exp(x) - 1 and its slope exp(x), guarded alike.
struct Growth {
  double less_one;  ///< Exact to rounding for small x; exactly 0 at 0.
  double slope;     ///< Taken as 0 below x = -40, where exp(x) no longer changes exp(x) - 1.
};

[[nodiscard]] inline Growth growth(double x) noexcept {
  if (x < -40.0) return {-1.0, 0.0};
  if (x < 0.1 && x > -0.1) {
    // Below a tenth exp(x) - 1 would lose digits.
    const double less_one = std::expm1(x);
    return {less_one, less_one + 1.0};
  }
  const GuardedExponential exponential = guarded(x);
  return {exponential.value - 1.0, exponential.slope};
}

/// exp(x_at_rest + over) - exp(x_at_rest) of a breakdown term and both slopes.
/// Either exponential is taken as 0 below -100, where it is beneath any current's last digit: the
/// usual case, which then costs nothing.
struct Avalanche {
  double value;
  double slope;
  double slope_at_rest;
};

[[nodiscard]] inline Avalanche avalanche(double over, double x_at_rest) noexcept {
  constexpr double nothing = -100.0;
  const double at_rest = x_at_rest < nothing ? 0.0 : std::exp(x_at_rest);
  if (over < 0.1 && over > -0.1) {
    const double value = at_rest * std::expm1(over);
    return {value, at_rest + value, at_rest};
  }
  const double x = x_at_rest + over;
  if (x < nothing) return {-at_rest, 0.0, at_rest};
  const GuardedExponential here = guarded(x);
  return {here.value - at_rest, here.slope, at_rest};
}

}  // namespace idlepoint::devices
