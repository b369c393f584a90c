// The benchmark: how fast the solver is against SUNDIALS KINSOL and SuiteSparse KLU, as ratios
// measured in one run, each beside its goal. What each row means: docs/benchmarks.md.
//
//   idlepoint_benchmark                          the largest demonstration stage
//   idlepoint_benchmark --stage tarn-70w.stage   another one of netlists/
//   idlepoint_benchmark --quick                  everything once, in a few seconds
//   idlepoint_benchmark --sampling               the rows of samples alone
#include <fmt/format.h>

#include <cstdlib>
#include <string_view>

#include "benchmarks/balance_equations.hpp"
#include "benchmarks/command_rows.hpp"
#include "benchmarks/fault_rows.hpp"
#include "benchmarks/sampling_rows.hpp"
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

void print_solver_rows(const StageProblem& problem, const std::string& file, const Effort& effort) {
  print_warm_rows(problem, effort);
  print_cold_rows(problem, effort);
  print_fault_rows(problem, effort);
  print_trimmer_rows(problem, effort);
  print_step_rows(problem, effort);
  print_command_rows(file, effort);
}

void print_sampling(const StageProblem& problem, const std::string& file, const Effort& effort) {
  for (const auto heat : {idlepoint::solve::HeatState::cold, idlepoint::solve::HeatState::warm}) {
    print_sampling_rows(problem, heat, effort);
  }
  print_memory_row(file, effort);
}

}  // namespace

int main(int argc, char** argv) {
  std::string file = "cairnfell-120w.stage";
  Effort effort;
  bool sampling_alone = false;
  std::size_t hold = 0;
  for (int k = 1; k < argc; ++k) {
    const std::string_view word = argv[k];
    if (word == "--quick") {
      effort = quick;
    } else if (word == "--sampling") {
      sampling_alone = true;
    } else if (word == "--stage" && k + 1 < argc) {
      file = argv[++k];
    } else if (word == "--hold" && k + 1 < argc) {
      hold = std::strtoul(argv[++k], nullptr, 10);  // The child of the memory row.
    } else {
      fmt::print(stderr, "usage: idlepoint_benchmark [--quick] [--sampling] [--stage FILE]\n");
      return EXIT_FAILURE;
    }
  }
  if (hold > 0) return hold_samples(file, hold) ? EXIT_SUCCESS : EXIT_FAILURE;
  const StageProblem problem = read_problem(file);
  print_size(problem);
  if (!sampling_alone) print_solver_rows(problem, file, effort);
  print_sampling(problem, file, effort);
  return EXIT_SUCCESS;
}
