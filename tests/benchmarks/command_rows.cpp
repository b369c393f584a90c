#include "benchmarks/command_rows.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstdio>
#include <memory>

namespace idlepoint::benchmarks {
namespace {

struct ChildCost {
  std::vector<double> processor_us;
  double peak_mib = 0.0;
  bool all_succeeded = true;
};

/// Runs a command under the meter and adds what its runs cost.
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

}  // namespace

void print_command_rows(const std::string& file, const Effort& effort) {
  const std::string command = fmt::format(
      "{} readings --cold --json {}/netlists/{}", IDLEPOINT_PROGRAM, IDLEPOINT_SOURCE_DIR, file);
  constexpr std::size_t blocks = 5;
  ChildCost ours;
  ChildCost empty;
  for (std::size_t block = 0; block < blocks; ++block) {
    add_runs(command, effort.commands / blocks, ours);
    add_runs(IDLEPOINT_EMPTY_PROGRAM, effort.commands / blocks, empty);
  }
  fmt::print("\nThe whole command: readings --cold --json {}\n", file);
  const double ours_us = median(ours.processor_us);
  const double empty_us = median(empty.processor_us);
  print_number("processor time", ours_us, "us", "");
  print_number("of an empty static program", empty_us, "us", "");
  print_number("the command in empty programs", ours_us / empty_us, "times", "<= 2");
  print_number("peak memory", ours.peak_mib, "MiB", "<= 8");
  print_number("of an empty static program", empty.peak_mib, "MiB", "");
  if (!ours.all_succeeded) print_remark("THE COMMAND FAILED: the numbers above mean nothing");
}

}  // namespace idlepoint::benchmarks
