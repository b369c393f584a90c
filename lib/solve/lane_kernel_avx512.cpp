// Lanes in the registers of AVX-512. Compiled with that instruction set alone.
#include "devices/pack.hpp"
#include "solve/lane_block.hpp"
#include "solve/lane_kernel_list.hpp"

namespace idlepoint::solve {

using Batch = xsimd::batch<double, xsimd::avx512f>;

void run_avx512_8(const LanePlan& plan, const LaneBlock& block) {
  run_block<devices::Pack<Batch, 1>>(plan, block);
}

}  // namespace idlepoint::solve
