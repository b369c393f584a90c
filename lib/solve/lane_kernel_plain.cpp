// One lane: plain doubles, on any machine.
#include "solve/lane_block.hpp"
#include "solve/lane_kernel_list.hpp"

namespace idlepoint::solve {

void run_plain_1(const LanePlan& plan, const LaneBlock& block) { run_block<double>(plan, block); }

}  // namespace idlepoint::solve
