// The kernels by name; only solve/lane_kernels.cpp calls them.
#pragma once

#include "solve/lane_kernels.hpp"

namespace idlepoint::solve {

void run_plain_1(const LanePlan& plan, const LaneBlock& block);
void run_sse2_4(const LanePlan& plan, const LaneBlock& block);
void run_sse2_8(const LanePlan& plan, const LaneBlock& block);
void run_avx2_4(const LanePlan& plan, const LaneBlock& block);
void run_avx2_8(const LanePlan& plan, const LaneBlock& block);
void run_avx512_8(const LanePlan& plan, const LaneBlock& block);

}  // namespace idlepoint::solve
