// Lanes in the registers of SSE2, which every x86-64 processor has. Compiled with that instruction
// set alone.
#include "devices/pack.hpp"
#include "solve/lane_block.hpp"
#include "solve/lane_kernel_list.hpp"

namespace idlepoint::solve {

using Batch = xsimd::batch<double, xsimd::sse2>;

void run_sse2_4(const LanePlan& plan, const LaneBlock& block) {
  run_block<devices::Pack<Batch, 2>>(plan, block);
}

void run_sse2_8(const LanePlan& plan, const LaneBlock& block) {
  run_block<devices::Pack<Batch, 4>>(plan, block);
}

}  // namespace idlepoint::solve
