// The exponential as the device laws use it: safe for any argument, inlined into the hot loops.
//
// Everything here is pure and written for any Real of devices/elementary.hpp; what is skipped never
// changes a lane's value.
// Source: the guard is this project's own (docs/models.md, "Outside the range of a law").
#pragma once

#include "devices/elementary.hpp"
#include "devices/junction.hpp"

namespace idlepoint::devices {

/// exp(80), where every exponential goes over into its tangent.
inline constexpr double largest_exponential = 5.540622384393510053e34;

/// exp(x) - 1 and its slope exp(x), with the tangent above `largest_exponent`.
template <class Real>
struct Growth {
  Real less_one;  ///< Exact to rounding for small x; exactly 0 at 0.
  Real slope;     ///< Taken as 0 below x = -40, where exp(x) no longer changes exp(x) - 1.
};

template <class Real>
[[nodiscard]] inline Growth<Real> growth(const Real& x) noexcept {
  constexpr double nothing = -40.0;
  const auto is_nothing = x < nothing;
  if (all(is_nothing)) return {Real(-1.0), Real(0.0)};
  const auto is_beyond = x > largest_exponent;
  const Real inside = select(is_nothing, Real(0.0), select(is_beyond, Real(0.0), x));
  const auto e = reduced_exponential(inside);
  const Real grown = e.power * e.less_one;
  const Real less_one = grown + (e.power - 1.0);
  const Real slope = grown + e.power;
  const Real tangent = largest_exponential * (1.0 + (x - largest_exponent));
  return {select(is_nothing, Real(-1.0), select(is_beyond, tangent, less_one)),
          select(is_nothing, Real(0.0), select(is_beyond, Real(largest_exponential), slope))};
}

/// exp(x_at_rest + over) - exp(x_at_rest) of a breakdown term and both slopes.
/// Either exponential is taken as 0 below -100, where it is beneath any current's last digit: the
/// usual case, which then costs nothing.
template <class Real>
struct Avalanche {
  Real value;
  Real slope;
  Real slope_at_rest;
};

template <class Real>
[[nodiscard]] inline Avalanche<Real> avalanche(const Real& over, const Real& x_at_rest) noexcept {
  constexpr double nothing = -100.0;
  const Real x = x_at_rest + over;
  const auto is_still = x_at_rest < nothing;
  const auto is_nothing = x < nothing;
  const Real none(0.0);
  if (all(is_still) && all(is_nothing)) return {none, none, none};
  const Real at_rest = select(is_still, none, exponential(x_at_rest));
  const auto is_beyond = x > largest_exponent;
  const Real inside = exponential(select(is_beyond, none, select(is_nothing, none, x)));
  const Real tangent = largest_exponential * (1.0 + (x - largest_exponent));
  const Real here = select(is_nothing, none, select(is_beyond, tangent, inside));
  const Real slope = select(is_nothing, none, select(is_beyond, Real(largest_exponential), inside));
  // Where little is over, the difference of two exponentials would lose digits.
  const auto is_close = magnitude(over) < 0.1;
  const Real close = at_rest * reduced_exponential(select(is_close, over, none)).less_one;
  return {
      select(is_close, close, here - at_rest), select(is_close, at_rest + close, slope), at_rest};
}

/// ln(1 + exp(z)) and its slope, from one exponential that cannot overflow.
template <class Real>
struct SoftPlus {
  Real value;
  Real slope;
};

template <class Real>
[[nodiscard]] inline SoftPlus<Real> soft_plus(const Real& z) noexcept {
  const Real small = exponential(-magnitude(z));
  const Real larger = 1.0 / (1.0 + small);
  const Real bend = logarithm_of_one_plus(small);
  const auto is_up = z > 0.0;
  return {select(is_up, z + bend, bend), select(is_up, larger, small * larger)};
}

}  // namespace idlepoint::devices
