#include "benchmarks/solve_rows.hpp"

#include <fmt/format.h>

#include "benchmarks/contenders.hpp"

namespace idlepoint::benchmarks {
namespace {

using solve::Numbers;

struct Measured {
  Timing timing;
  double steps = 0.0;
};

struct Comparison {
  Measured ours;
  Measured kinsol_dense;
  Measured kinsol_klu;
  Measured klu;
  KinsolSettings dense_settings;
  KinsolSettings klu_settings;
};

Comparison compare(const StageProblem& problem,
                   const std::vector<Numbers>& variants,
                   Start start,
                   std::size_t rounds) {
  Comparison all;
  all.dense_settings = best_settings(problem, variants, Matrix::dense, start);
  all.klu_settings = best_settings(problem, variants, Matrix::klu, start);
  std::vector<StepCounts> steps(4);
  const auto timings =
      time_interleaved({ours(problem, variants, start, steps[0]),
                        kinsol(problem, variants, start, all.dense_settings, steps[1]),
                        kinsol(problem, variants, start, all.klu_settings, steps[2]),
                        klu(problem, variants, start, Pivots::kept, steps[3])},
                       variants.size(),
                       rounds);
  all.ours = {timings[0], median(steps[0])};
  all.kinsol_dense = {timings[1], median(steps[1])};
  all.kinsol_klu = {timings[2], median(steps[2])};
  all.klu = {timings[3], median(steps[3])};
  return all;
}

void print(const Comparison& all, std::string_view kinsol_goal, std::string_view klu_goal) {
  const double ours_us = all.ours.timing.median_us;
  print_ratio("against KINSOL, dense", ours_us, all.kinsol_dense.timing.median_us, "");
  print_ratio("against KINSOL + KLU", ours_us, all.kinsol_klu.timing.median_us, kinsol_goal);
  print_ratio("against our Newton with KLU refactor", ours_us, all.klu.timing.median_us, klu_goal);
  print_remark(fmt::format("steps: ours {}, KINSOL dense {}, KINSOL + KLU {}, KLU refactor {}",
                           all.ours.steps,
                           all.kinsol_dense.steps,
                           all.kinsol_klu.steps,
                           all.klu.steps));
  print_remark(fmt::format("not solved: ours {}, KINSOL dense {}, KINSOL + KLU {}, KLU refactor {}",
                           all.ours.timing.failures,
                           all.kinsol_dense.timing.failures,
                           all.kinsol_klu.timing.failures,
                           all.klu.timing.failures));
  print_remark("KINSOL dense at its best: " + describe(all.dense_settings));
  print_remark("KINSOL + KLU at its best: " + describe(all.klu_settings));
}

}  // namespace

void print_warm_rows(const StageProblem& problem, const Effort& effort) {
  const auto variants = varied_numbers(problem, 0.01, effort.variants, 1);
  print_heading(fmt::format("One warm solve, {} variants within 1 %", variants.size()));
  print(compare(problem, variants, Start::warm, effort.rounds), ">= 8", ">= 2.5");
}

void print_cold_rows(const StageProblem& problem, const Effort& effort) {
  const auto variants = varied_numbers(problem, 0.2, effort.cold_variants, 2);
  print_heading(fmt::format("One cold solve, {} variants within 20 %", variants.size()));
  print(compare(problem, variants, Start::cold, effort.cold_rounds), ">= 80", "");
}

}  // namespace idlepoint::benchmarks
