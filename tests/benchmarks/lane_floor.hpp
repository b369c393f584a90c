// The least that a step in lanes can cost: the device laws and the elimination, nothing else.
//
// No limiting, no stamps, no tests: what is left when everything around them is free. Compiled once
// an instruction set, like the lanes themselves; `lane_floors` names those that were built.
#pragma once

#include <cstddef>
#include <span>
#include <string_view>

#include "solve/lane_plan.hpp"

namespace idlepoint::benchmarks {

struct LaneFloor {
  std::string_view name;  ///< As the kernel's.
  std::size_t lanes;
  /// Takes `steps` steps at the nominal state; returns a sum that depends on all of them.
  double (*run)(const solve::LanePlan& plan, std::size_t steps);
};

/// The one beside a kernel; none where it was not built.
[[nodiscard]] const LaneFloor* floor_of(std::string_view name, std::size_t lanes);

double run_floor_plain_1(const solve::LanePlan& plan, std::size_t steps);
double run_floor_sse2_4(const solve::LanePlan& plan, std::size_t steps);
double run_floor_sse2_8(const solve::LanePlan& plan, std::size_t steps);
double run_floor_avx2_4(const solve::LanePlan& plan, std::size_t steps);
double run_floor_avx2_8(const solve::LanePlan& plan, std::size_t steps);
double run_floor_avx512_8(const solve::LanePlan& plan, std::size_t steps);

}  // namespace idlepoint::benchmarks
