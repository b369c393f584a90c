// The lanes of each instruction set, chosen at run time.
//
// Each kernel solves a block of samples of one plan with as many lanes as its registers hold; all
// give the same bits. Used by solve/batch.
#pragma once

#include <cstddef>
#include <cstdint>
#include <span>

#include "solve/lane_plan.hpp"

namespace idlepoint::solve {

/// What became of a sample.
enum class Fate : std::uint8_t {
  settled,
  failed,        ///< Not in the lanes: for the scalar solver.
  out_of_reach,  ///< A trimmer that follows its target stays at an end of its track.
  too_hot,       ///< Comes to rest above a part's maximum junction temperature.
};

/// Samples `first` to `first + fates.size()`.
struct LaneBlock {
  std::uint64_t seed = 1;
  std::uint64_t first = 0;
  std::span<double> values;  ///< [samples][probes + travels]
  std::span<Fate> fates;     ///< [samples]
};

struct LaneKernel {
  const char* name;  ///< "plain", "SSE2", "AVX2", "AVX-512".
  std::size_t lanes;
  void (*run)(const LanePlan& plan, const LaneBlock& block);
  bool (*is_supported)() noexcept;
};

/// Those that were built, narrow ones first; the first is always supported.
[[nodiscard]] std::span<const LaneKernel> lane_kernels() noexcept;

/// The fastest for this plan on this machine.
[[nodiscard]] const LaneKernel& best_kernel(const LanePlan& plan) noexcept;

}  // namespace idlepoint::solve
