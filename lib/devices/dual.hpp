// A number with its derivative: a device law run with it gives the exact slope of every result by
// whatever carries the derivative 1.
//
// Used by solve/sensitivity for slopes by the fields of part types, which are too many to write
// out. Forward mode; [Wengert1964].
#pragma once

#include "devices/elementary.hpp"

namespace idlepoint::devices {

struct Dual {
  double value = 0.0;
  double slope = 0.0;

  Dual() = default;
  /// A constant. Not explicit: laws mix constants with Reals.
  Dual(double constant) noexcept : value(constant) {}  // NOLINT(google-explicit-constructor)
  Dual(double at, double by) noexcept : value(at), slope(by) {}

  friend Dual operator-(const Dual& a) noexcept { return {-a.value, -a.slope}; }
  friend Dual operator+(const Dual& a, const Dual& b) noexcept {
    return {a.value + b.value, a.slope + b.slope};
  }
  friend Dual operator-(const Dual& a, const Dual& b) noexcept {
    return {a.value - b.value, a.slope - b.slope};
  }
  friend Dual operator*(const Dual& a, const Dual& b) noexcept {
    return {a.value * b.value, a.slope * b.value + a.value * b.slope};
  }
  friend Dual operator/(const Dual& a, const Dual& b) noexcept {
    const double ratio = a.value / b.value;
    return {ratio, (a.slope - ratio * b.slope) / b.value};
  }

  friend bool operator<(const Dual& a, const Dual& b) noexcept { return a.value < b.value; }
  friend bool operator>(const Dual& a, const Dual& b) noexcept { return a.value > b.value; }
  friend bool operator<=(const Dual& a, const Dual& b) noexcept { return a.value <= b.value; }
  friend bool operator>=(const Dual& a, const Dual& b) noexcept { return a.value >= b.value; }
  /// Equal as constants are: a number that moves equals none.
  friend bool operator==(const Dual& a, const Dual& b) noexcept {
    return a.value == b.value && a.slope == b.slope;
  }
};

[[nodiscard]] inline Dual select(bool condition, const Dual& yes, const Dual& no) noexcept {
  return condition ? yes : no;
}
[[nodiscard]] inline Dual square_root(const Dual& x) noexcept {
  const double root = square_root(x.value);
  return {root, 0.5 * x.slope / root};
}
[[nodiscard]] inline Dual magnitude(const Dual& x) noexcept { return x.value < 0.0 ? -x : x; }

[[nodiscard]] inline Dual exponential(const Dual& x) noexcept {
  const double value = exponential(x.value);
  return {value, value * x.slope};
}
[[nodiscard]] inline Dual logarithm(const Dual& x) noexcept {
  return {logarithm(x.value), x.slope / x.value};
}
[[nodiscard]] inline Dual logarithm_of_one_plus(const Dual& y) noexcept {
  return {logarithm_of_one_plus(y.value), y.slope / (1.0 + y.value)};
}
/// As for any Real; the whole derivative goes with `less_one`.
[[nodiscard]] inline ReducedExponential<Dual> reduced_exponential(const Dual& x) noexcept {
  const ReducedExponential<double> e = reduced_exponential(x.value);
  return {Dual(e.power), Dual(e.less_one, (1.0 + e.less_one) * x.slope)};
}

}  // namespace idlepoint::devices
