// The laws look up a pack's own functions where they are written: packs come first.
#include "devices/pack.hpp"
//
#include "benchmarks/lane_floor_run.hpp"

namespace idlepoint::benchmarks {

using Batch = xsimd::batch<double, xsimd::avx2>;

double run_floor_avx2_4(const solve::LanePlan& plan, std::size_t steps) {
  return run_floor<devices::Pack<Batch, 1>>(plan, steps);
}

double run_floor_avx2_8(const solve::LanePlan& plan, std::size_t steps) {
  return run_floor<devices::Pack<Batch, 2>>(plan, steps);
}

}  // namespace idlepoint::benchmarks
