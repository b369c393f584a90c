// Several lanes of doubles as one Real: the device laws then run on as many variants side by side.
//
// `Batch` is an xsimd batch of one instruction set; `count` of them make a pack, so that eight
// lanes are one wide register or two or four narrow ones. Every operation is a lane's own: a pack
// of any width holds the bits that plain doubles would. Included only by the sources that are
// compiled once an instruction set (solve/batch_*.cpp).
#pragma once

#include <cstddef>
#include <cstdint>
#include <xsimd/xsimd.hpp>

#include "devices/elementary.hpp"

namespace idlepoint::devices {

/// One truth a lane.
template <class Batch, std::size_t count>
struct PackMask {
  typename Batch::batch_bool_type part[count];

  PackMask() = default;
  explicit PackMask(bool same) noexcept {
    for (auto& p : part) p = typename Batch::batch_bool_type(same);
  }
  friend PackMask operator&&(const PackMask& a, const PackMask& b) noexcept {
    PackMask result;
    for (std::size_t k = 0; k < count; ++k) result.part[k] = a.part[k] & b.part[k];
    return result;
  }
  friend PackMask operator||(const PackMask& a, const PackMask& b) noexcept {
    PackMask result;
    for (std::size_t k = 0; k < count; ++k) result.part[k] = a.part[k] | b.part[k];
    return result;
  }
  friend PackMask operator!(const PackMask& a) noexcept {
    PackMask result;
    for (std::size_t k = 0; k < count; ++k) result.part[k] = ~a.part[k];
    return result;
  }
};

template <class Batch, std::size_t count>
struct Pack {
  static constexpr std::size_t lanes = Batch::size * count;
  using MaskType = PackMask<Batch, count>;
  Batch part[count];

  Pack() = default;
  /// The same in every lane. Not explicit: laws mix constants with Reals.
  Pack(double same) noexcept {  // NOLINT(google-explicit-constructor)
    for (auto& p : part) p = Batch(same);
  }
  /// From `lanes` doubles; no alignment asked.
  [[nodiscard]] static Pack load(const double* from) noexcept {
    Pack result;
    for (std::size_t k = 0; k < count; ++k) {
      result.part[k] = Batch::load_unaligned(from + k * Batch::size);
    }
    return result;
  }
  void store(double* to) const noexcept {
    for (std::size_t k = 0; k < count; ++k) part[k].store_unaligned(to + k * Batch::size);
  }

  friend Pack operator+(const Pack& a, const Pack& b) noexcept {
    return each([&](std::size_t k) { return a.part[k] + b.part[k]; });
  }
  friend Pack operator-(const Pack& a, const Pack& b) noexcept {
    return each([&](std::size_t k) { return a.part[k] - b.part[k]; });
  }
  friend Pack operator*(const Pack& a, const Pack& b) noexcept {
    return each([&](std::size_t k) { return a.part[k] * b.part[k]; });
  }
  friend Pack operator/(const Pack& a, const Pack& b) noexcept {
    return each([&](std::size_t k) { return a.part[k] / b.part[k]; });
  }
  friend MaskType operator<(const Pack& a, const Pack& b) noexcept {
    return compared([&](std::size_t k) { return a.part[k] < b.part[k]; });
  }
  friend MaskType operator>(const Pack& a, const Pack& b) noexcept {
    return compared([&](std::size_t k) { return a.part[k] > b.part[k]; });
  }
  friend MaskType operator<=(const Pack& a, const Pack& b) noexcept {
    return compared([&](std::size_t k) { return a.part[k] <= b.part[k]; });
  }
  friend MaskType operator>=(const Pack& a, const Pack& b) noexcept {
    return compared([&](std::size_t k) { return a.part[k] >= b.part[k]; });
  }
  friend MaskType operator==(const Pack& a, const Pack& b) noexcept {
    return compared([&](std::size_t k) { return a.part[k] == b.part[k]; });
  }
  friend MaskType operator!=(const Pack& a, const Pack& b) noexcept {
    return compared([&](std::size_t k) { return a.part[k] != b.part[k]; });
  }
  friend Pack operator-(const Pack& a) noexcept {
    return each([&](std::size_t k) { return -a.part[k]; });
  }

  /// A pack of what `make` gives for each of its batches.
  template <class Make>
  [[nodiscard]] static Pack each(Make make) noexcept {
    Pack result;
    for (std::size_t k = 0; k < count; ++k) result.part[k] = make(k);
    return result;
  }
  template <class Make>
  [[nodiscard]] static MaskType compared(Make make) noexcept {
    MaskType result;
    for (std::size_t k = 0; k < count; ++k) result.part[k] = make(k);
    return result;
  }
};

template <class Batch, std::size_t count>
[[nodiscard]] inline Pack<Batch, count> select(const PackMask<Batch, count>& condition,
                                               const Pack<Batch, count>& yes,
                                               const Pack<Batch, count>& no) noexcept {
  return Pack<Batch, count>::each(
      [&](std::size_t k) { return xsimd::select(condition.part[k], yes.part[k], no.part[k]); });
}

template <class Batch, std::size_t count>
[[nodiscard]] inline bool any(const PackMask<Batch, count>& condition) noexcept {
  bool found = false;
  for (std::size_t k = 0; k < count; ++k) found = found || xsimd::any(condition.part[k]);
  return found;
}

template <class Batch, std::size_t count>
[[nodiscard]] inline bool all(const PackMask<Batch, count>& condition) noexcept {
  bool found = true;
  for (std::size_t k = 0; k < count; ++k) found = found && xsimd::all(condition.part[k]);
  return found;
}

template <class Batch, std::size_t count>
[[nodiscard]] inline Pack<Batch, count> square_root(const Pack<Batch, count>& x) noexcept {
  return Pack<Batch, count>::each([&](std::size_t k) { return xsimd::sqrt(x.part[k]); });
}

template <class Batch, std::size_t count>
[[nodiscard]] inline Pack<Batch, count> magnitude(const Pack<Batch, count>& x) noexcept {
  return Pack<Batch, count>::each([&](std::size_t k) { return xsimd::abs(x.part[k]); });
}

template <class Batch, std::size_t count>
[[nodiscard]] inline Pack<Batch, count> power_of_two(const Pack<Batch, count>& magic) noexcept {
  using Bits = xsimd::batch<std::uint64_t, typename Batch::arch_type>;
  constexpr std::uint64_t one_bits = std::uint64_t{1023} << 52U;
  return Pack<Batch, count>::each([&](std::size_t k) {
    const Bits bits = xsimd::bitwise_cast<Bits>(magic.part[k]);
    return xsimd::bitwise_cast<Batch>((bits << 52) + Bits(one_bits));
  });
}

template <class Real>
struct PackSplit {
  Real mantissa;
  Real exponent;
};

template <class Batch, std::size_t count>
[[nodiscard]] inline PackSplit<Pack<Batch, count>> split(const Pack<Batch, count>& x) noexcept {
  using Bits = xsimd::batch<std::uint64_t, typename Batch::arch_type>;
  constexpr std::uint64_t mantissa_mask = (std::uint64_t{1} << 52U) - 1U;
  constexpr std::uint64_t one_bits = std::uint64_t{1023} << 52U;
  constexpr double two_52 = 4503599627370496.0;
  const Bits two_52_bits = xsimd::bitwise_cast<Bits>(Batch(two_52));
  PackSplit<Pack<Batch, count>> result;
  for (std::size_t k = 0; k < count; ++k) {
    const Bits bits = xsimd::bitwise_cast<Bits>(x.part[k]);
    const Batch biased = xsimd::bitwise_cast<Batch>((bits >> 52) | two_52_bits) - Batch(two_52);
    result.exponent.part[k] = biased - Batch(1023.0);
    result.mantissa.part[k] =
        xsimd::bitwise_cast<Batch>((bits & Bits(mantissa_mask)) | Bits(one_bits));
  }
  return result;
}

}  // namespace idlepoint::devices
