// The random numbers of a sample: they depend on the seed, the sample and the draw alone.
//
// Counter based, so that neither lanes nor threads nor the number of samples change any of them.
// Used by the lanes of a batch and by the scalar solver alike.
// Source: Philox4x32-10, [SalmonMoraesDrorShaw2011], by the Random123 library.
#pragma once

#include <Random123/philox.h>

#include <bit>
#include <cstddef>
#include <cstdint>

namespace idlepoint::solve {

/// Two draws of one sample, `pair` = draw / 2, each even over [-1, 1) in steps of 2^-51.
struct DrawPair {
  double u[2];
};

[[nodiscard]] inline DrawPair draw_pair(std::uint64_t seed,
                                        std::uint64_t sample,
                                        std::uint32_t pair) noexcept {
  const auto low = [](std::uint64_t x) { return static_cast<std::uint32_t>(x); };
  const auto high = [](std::uint64_t x) { return static_cast<std::uint32_t>(x >> 32U); };
  const r123::Philox4x32::ctr_type counter{{low(sample), high(sample), pair, 0}};
  const r123::Philox4x32::key_type key{{low(seed), high(seed)}};
  const auto words = r123::Philox4x32()(counter, key);
  const auto even = [](std::uint32_t first, std::uint32_t second) {
    constexpr std::uint64_t one_bits = std::uint64_t{1023} << 52U;
    const std::uint64_t bits = (std::uint64_t{second} << 32U) | first;
    return 2.0 * (std::bit_cast<double>((bits >> 12U) | one_bits) - 1.5);
  };
  return {{even(words[0], words[1]), even(words[2], words[3])}};
}

/// One draw of one sample.
[[nodiscard]] inline double draw(std::uint64_t seed, std::uint64_t sample, std::size_t index) {
  return draw_pair(seed, sample, static_cast<std::uint32_t>(index / 2)).u[index % 2];
}

}  // namespace idlepoint::solve
