// The benchmark: how fast the solver is against SUNDIALS KINSOL and SuiteSparse KLU, as ratios
// measured in one run, each beside its goal. What each row means: docs/benchmarks.md.
//
//   idlepoint_benchmark                          the largest demonstration stage
//   idlepoint_benchmark --stage tarn-70w.stage   another one of netlists/
//   idlepoint_benchmark --quick                  everything once, in a few seconds
#include <fmt/format.h>

#include <cstdlib>
#include <string_view>

#include "benchmarks/balance_equations.hpp"
#include "benchmarks/command_rows.hpp"
#include "benchmarks/fault_rows.hpp"
#include "benchmarks/solve_rows.hpp"
#include "benchmarks/stage_problem.hpp"
#include "benchmarks/step_rows.hpp"
#include "benchmarks/trimmer_rows.hpp"

using namespace idlepoint::benchmarks;

namespace {

void print_size(const StageProblem& problem) {
  const auto& system = problem.system;
  fmt::print("{}: {} bipolar transistors, {} diodes, {} FETs\n",
             problem.stage->title,
             system.bipolars.size(),
             system.diodes.size(),
             system.fets.size());
  fmt::print("{} unknowns, {} matrix entries, {} after fill, {} multiply-adds an elimination\n",
             system.unknowns,
             find_pattern(system).row.size(),
             system.elimination.slots() - 1,
             system.elimination.operations());
}

}  // namespace

int main(int argc, char** argv) {
  std::string file = "cairnfell-120w.stage";
  Effort effort;
  for (int k = 1; k < argc; ++k) {
    const std::string_view word = argv[k];
    if (word == "--quick") {
      effort = quick;
    } else if (word == "--stage" && k + 1 < argc) {
      file = argv[++k];
    } else {
      fmt::print(stderr, "usage: idlepoint_benchmark [--quick] [--stage FILE]\n");
      return EXIT_FAILURE;
    }
  }
  const StageProblem problem = read_problem(file);
  print_size(problem);
  print_warm_rows(problem, effort);
  print_cold_rows(problem, effort);
  print_fault_rows(problem, effort);
  print_trimmer_rows(problem, effort);
  print_step_rows(problem, effort);
  print_command_rows(file, effort);
  return EXIT_SUCCESS;
}
