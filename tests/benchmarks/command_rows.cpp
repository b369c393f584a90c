#include "benchmarks/command_rows.hpp"

#include <fmt/format.h>

#include "benchmarks/child_cost.hpp"

namespace idlepoint::benchmarks {
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
