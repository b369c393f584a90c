// Exponential and logarithm of our own, the same bits at every width.
//
// The device laws are written once for any `Real`: a plain double, several lanes of doubles
// (devices/pack.hpp), or a number with its derivative (devices/dual.hpp). Whatever they compute
// comes from here, in additions, multiplications, divisions and square roots alone, so that one
// lane of eight carries the very bits that a single double would. Contraction to fused
// multiply-adds is off in every build. Everything is pure and inlined into the hot loops.
// Source: reduction by a two-part ln 2 as in [CodyWaite1980]; the polynomials are Taylor's.
#pragma once

#include <bit>
#include <cmath>
#include <cstdint>
#include <utility>

namespace idlepoint::devices {

/// What a comparison of two Reals gives: one truth a lane.
template <class Real>
using Mask = decltype(std::declval<const Real&>() < std::declval<const Real&>());

// What a Real must offer beside its arithmetic and comparisons, here for the plain double.

[[nodiscard]] inline double select(bool condition, double yes, double no) noexcept {
  return condition ? yes : no;
}
[[nodiscard]] inline bool any(bool condition) noexcept { return condition; }
[[nodiscard]] inline bool all(bool condition) noexcept { return condition; }
[[nodiscard]] inline double square_root(double x) noexcept { return std::sqrt(x); }
[[nodiscard]] inline double magnitude(double x) noexcept { return std::abs(x); }

/// 2^n for the whole number n in [-1022, 1023] that `magic` = n + 1.5 * 2^52 carries in its last
/// bits.
[[nodiscard]] inline double power_of_two(double magic) noexcept {
  constexpr std::uint64_t one_bits = std::uint64_t{1023} << 52U;
  return std::bit_cast<double>((std::bit_cast<std::uint64_t>(magic) << 52U) + one_bits);
}

/// x = mantissa * 2^exponent, mantissa in [1, 2), for positive normal x.
struct Split {
  double mantissa;
  double exponent;
};
[[nodiscard]] inline Split split(double x) noexcept {
  constexpr std::uint64_t mantissa_mask = (std::uint64_t{1} << 52U) - 1U;
  constexpr std::uint64_t one_bits = std::uint64_t{1023} << 52U;
  constexpr double two_52 = 4503599627370496.0;
  const auto bits = std::bit_cast<std::uint64_t>(x);
  const double biased =
      std::bit_cast<double>((bits >> 52U) | std::bit_cast<std::uint64_t>(two_52)) - two_52;
  return {std::bit_cast<double>((bits & mantissa_mask) | one_bits), biased - 1023.0};
}

/// exp(x) as 2^n (1 + less_one): `less_one` = exp(r) - 1 of the reduced argument.
template <class Real>
struct ReducedExponential {
  Real power;     ///< 2^n.
  Real less_one;  ///< exp(r) - 1, |r| <= ln(2)/2; exact to rounding for small r.
};

/// For |x| <= 700.
template <class Real>
[[nodiscard]] inline ReducedExponential<Real> reduced_exponential(const Real& x) noexcept {
  constexpr double log2_e = 1.4426950408889634074;
  constexpr double shift = 6755399441055744.0;  // 1.5 * 2^52
  // The first part ends in 21 zero bits: its product with n is exact.
  constexpr double ln2_high = 6.93147180369123816490e-01;
  constexpr double ln2_low = 1.90821492927058770002e-10;
  const Real magic = x * log2_e + shift;
  const Real n = magic - shift;
  const Real r = (x - n * ln2_high) - n * ln2_low;
  // 1/k! from 2 to 13, summed in pairs so that the additions need not wait for one another.
  const Real r2 = r * r;
  const Real r4 = r2 * r2;
  const Real a = r * (1.0 / 6.0) + 0.5;
  const Real b = r * (1.0 / 120.0) + 1.0 / 24.0;
  const Real c = r * (1.0 / 5040.0) + 1.0 / 720.0;
  const Real d = r * (1.0 / 362880.0) + 1.0 / 40320.0;
  const Real e = r * (1.0 / 39916800.0) + 1.0 / 3628800.0;
  const Real f = r * (1.0 / 6227020800.0) + 1.0 / 479001600.0;
  const Real low = a + r2 * b;
  const Real middle = c + r2 * d;
  const Real high = e + r2 * f;
  const Real q = low + r4 * (middle + r4 * high);
  return {power_of_two(magic), r + r2 * q};
}

/// exp(x) for x <= 700; 0 below -700. Error below one unit in the last place.
template <class Real>
[[nodiscard]] inline Real exponential(const Real& x) noexcept {
  constexpr double lowest = -700.0;
  const auto is_nothing = x < lowest;
  const auto e = reduced_exponential(select(is_nothing, Real(lowest), x));
  return select(is_nothing, Real(0.0), e.power + e.power * e.less_one);
}

/// ln(x) for positive normal x.
template <class Real>
[[nodiscard]] inline Real logarithm(const Real& x) noexcept {
  constexpr double ln2_high = 6.93147180369123816490e-01;
  constexpr double ln2_low = 1.90821492927058770002e-10;
  constexpr double root_2 = 1.4142135623730950488;
  const auto parts = split(x);
  const auto is_large = parts.mantissa > root_2;
  const Real m = select(is_large, parts.mantissa * 0.5, parts.mantissa);
  const Real n = select(is_large, parts.exponent + 1.0, parts.exponent);
  // ln m = 2 artanh(s), |s| < 0.172.
  const Real f = m - 1.0;
  const Real s = f / (m + 1.0);
  const Real z = s * s;
  Real sum = Real(2.0 / 23.0);
  for (const double k : {21.0, 19.0, 17.0, 15.0, 13.0, 11.0, 9.0, 7.0, 5.0, 3.0}) {
    sum = sum * z + 2.0 / k;
  }
  // 2 s = f - s f, so that the large term is f itself.
  const Real bent = s * (z * sum) - s * f;
  return n * ln2_high + (f + (n * ln2_low + bent));
}

/// ln(1 + y) for y > -1, exact to rounding for small y [Goldberg1991].
template <class Real>
[[nodiscard]] inline Real logarithm_of_one_plus(const Real& y) noexcept {
  const Real u = 1.0 + y;
  return logarithm(u) + (y - (u - 1.0)) / u;
}

/// base^exponent for positive normal base and moderate results.
template <class Real, class Exponent>
[[nodiscard]] inline Real power(const Real& base, const Exponent& exponent) noexcept {
  return exponential(exponent * logarithm(base));
}

}  // namespace idlepoint::devices
