// Lanes in the registers of AVX2. Compiled with that instruction set alone.
#include "devices/pack.hpp"
#include "solve/lane_block.hpp"
#include "solve/lane_kernel_list.hpp"

namespace idlepoint::solve {

using Batch = xsimd::batch<double, xsimd::avx2>;

void run_avx2_4(const LanePlan& plan, const LaneBlock& block) {
  run_block<devices::Pack<Batch, 1>>(plan, block);
}

void run_avx2_8(const LanePlan& plan, const LaneBlock& block) {
  run_block<devices::Pack<Batch, 2>>(plan, block);
}

}  // namespace idlepoint::solve
