#include "solve/lane_kernels.hpp"

#include <array>

#include "solve/lane_kernel_list.hpp"

namespace idlepoint::solve {
namespace {

bool always() noexcept { return true; }

#ifdef IDLEPOINT_X86_64_LANES
bool has_avx2() noexcept { return __builtin_cpu_supports("avx2") != 0; }
bool has_avx512() noexcept { return __builtin_cpu_supports("avx512f") != 0; }

constexpr auto kernels = std::to_array<LaneKernel>({
    {"plain", 1, run_plain_1, always},
    {"SSE2", 4, run_sse2_4, always},
    {"SSE2", 8, run_sse2_8, always},
    {"AVX2", 4, run_avx2_4, has_avx2},
    {"AVX2", 8, run_avx2_8, has_avx2},
    {"AVX-512", 8, run_avx512_8, has_avx512},
});
#else
constexpr auto kernels = std::to_array<LaneKernel>({{"plain", 1, run_plain_1, always}});
#endif

}  // namespace

std::span<const LaneKernel> lane_kernels() noexcept { return kernels; }

const LaneKernel& best_kernel(const LanePlan& plan) noexcept {
  // Two value arrays of all lanes should stay inside the first cache.
  constexpr std::size_t cache_bytes = 32 * 1024;
  const auto bytes = [&](std::size_t lanes) {
    return 2 * lanes * sizeof(double) * static_cast<std::size_t>(plan.elimination.slots());
  };
  const LaneKernel* best = kernels.data();
  for (const LaneKernel& kernel : kernels) {
    if (!kernel.is_supported()) continue;
    if (kernel.lanes > 4 && bytes(kernel.lanes) > cache_bytes) continue;
    best = &kernel;
  }
  return *best;
}

}  // namespace idlepoint::solve
