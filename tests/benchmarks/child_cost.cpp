#include "benchmarks/child_cost.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstdio>
#include <memory>

namespace idlepoint::benchmarks {

void add_runs(const std::string& command, std::size_t runs, ChildCost& cost) {
  const std::string metered = fmt::format("{} {} {}", IDLEPOINT_CHILD_METER, runs, command);
  const std::unique_ptr<FILE, int (*)(FILE*)> output(popen(metered.c_str(), "r"), pclose);
  if (!output) {
    cost.all_succeeded = false;
    return;
  }
  int status = 0;
  long microseconds = 0;
  long kibibytes = 0;
  while (std::fscanf(output.get(), "%d %ld %ld", &status, &microseconds, &kibibytes) == 3) {
    cost.processor_us.push_back(static_cast<double>(microseconds));
    cost.peak_mib = std::max(cost.peak_mib, static_cast<double>(kibibytes) / 1024.0);
    cost.all_succeeded = cost.all_succeeded && status == 0;
  }
}

}  // namespace idlepoint::benchmarks
