// What child processes cost: processor time and peak memory, read by the child meter.
#pragma once

#include <string>
#include <vector>

namespace idlepoint::benchmarks {

struct ChildCost {
  std::vector<double> processor_us;
  double peak_mib = 0.0;
  bool all_succeeded = true;
};

/// Runs a command under the meter and adds what its runs cost.
void add_runs(const std::string& command, std::size_t runs, ChildCost& cost);

}  // namespace idlepoint::benchmarks
