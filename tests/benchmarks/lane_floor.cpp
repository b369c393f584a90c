#include "benchmarks/lane_floor.hpp"

#include <algorithm>
#include <array>

#include "benchmarks/lane_floor_run.hpp"

namespace idlepoint::benchmarks {

double run_floor_plain_1(const solve::LanePlan& plan, std::size_t steps) {
  return run_floor<double>(plan, steps);
}

const LaneFloor* floor_of(std::string_view name, std::size_t lanes) {
  static constexpr auto floors = std::to_array<LaneFloor>({
      {"plain", 1, run_floor_plain_1},
#ifdef IDLEPOINT_X86_64_LANES
      {"SSE2", 4, run_floor_sse2_4},
      {"SSE2", 8, run_floor_sse2_8},
      {"AVX2", 4, run_floor_avx2_4},
      {"AVX2", 8, run_floor_avx2_8},
      {"AVX-512", 8, run_floor_avx512_8},
#endif
  });
  const auto* found = std::find_if(floors.begin(), floors.end(), [&](const LaneFloor& floor) {
    return floor.name == name && floor.lanes == lanes;
  });
  return found == floors.end() ? nullptr : found;
}

}  // namespace idlepoint::benchmarks
