#include "benchmarks/solve_rows.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <limits>
#include <memory>

#include "benchmarks/kinsol_solver.hpp"
#include "benchmarks/klu_newton.hpp"
#include "solve/find_state.hpp"

namespace idlepoint::benchmarks {
namespace {

using solve::Numbers;

/// Where a contender's steps are added up.
using StepCounts = std::vector<double>;

enum class Start { warm, cold };

Contender ours(const StageProblem& problem,
               const std::vector<Numbers>& variants,
               Start start,
               StepCounts& steps) {
  auto work = std::make_shared<solve::Work>();
  const solve::State* state = start == Start::warm ? &problem.solution : nullptr;
  return {"ours", [&problem, &variants, &steps, work, state](std::size_t k) {
            solve::prepare(problem.system, variants[k], *work);
            const solve::Found found = solve::find_state(problem.system, variants[k], *work, state);
            const auto* solution = std::get_if<solve::Solution>(&found);
            if (solution != nullptr) steps.push_back(solution->report.iterations);
            return solution != nullptr;
          }};
}

Contender klu(const StageProblem& problem,
              const std::vector<Numbers>& variants,
              Start start,
              Pivots pivots,
              StepCounts& steps) {
  auto work = std::make_shared<solve::Work>();
  auto state = std::make_shared<solve::State>();
  auto newton = std::make_shared<KluNewton>(problem.system, pivots);
  return {"KLU", [&problem, &variants, &steps, work, state, newton, start](std::size_t k) {
            solve::prepare(problem.system, variants[k], *work);
            *state = start == Start::warm ? problem.solution
                                          : solve::cold_start(problem.system, variants[k]);
            const bool solved = newton->solve(variants[k], *state, *work);
            steps.push_back(newton->steps());
            return solved;
          }};
}

/// KINSOL with its own memory: its equations live as long as the contender.
struct Kinsol {
  BalanceEquations equations;
  std::unique_ptr<KinsolSolver> solver;
  std::vector<double> x;

  Kinsol(const StageProblem& problem, const KinsolSettings& settings)
      : equations(problem.system), x(static_cast<std::size_t>(problem.system.unknowns)) {
    equations.take(problem.nominal);
    equations.evaluate(solution(problem));
    solver = std::make_unique<KinsolSolver>(equations, settings, equations.tolerances_a());
  }

  [[nodiscard]] std::span<const double> solution(const StageProblem& problem) const {
    return std::span(problem.solution.x).first(x.size());
  }
};

Contender kinsol(const StageProblem& problem,
                 const std::vector<Numbers>& variants,
                 Start start,
                 const KinsolSettings& settings,
                 StepCounts& steps) {
  auto kinsol = std::make_shared<Kinsol>(problem, settings);
  return {"KINSOL", [&problem, &variants, &steps, kinsol, start](std::size_t k) {
            kinsol->equations.take(variants[k]);
            bool solved = false;
            if (start == Start::warm) {
              const auto from = kinsol->solution(problem);
              std::copy(from.begin(), from.end(), kinsol->x.begin());
              solved = kinsol->solver->solve(kinsol->x);
            } else {
              solved = kinsol->solver->solve_by_stepping(kinsol->x);
            }
            steps.push_back(static_cast<double>(kinsol->solver->steps()));
            return solved && kinsol->equations.balance_holds(kinsol->x);
          }};
}

std::string describe(const KinsolSettings& settings) {
  std::string words = settings.steps_per_jacobian == 1
                          ? "a Jacobian a step"
                          : fmt::format("a Jacobian in at most {} steps{}",
                                        settings.steps_per_jacobian,
                                        settings.residual_monitor ? ", residual monitor" : "");
  if (settings.line_search) words += ", line search";
  if (settings.first_source_rung < 1.0) {
    words += fmt::format(", sources from {}", settings.first_source_rung);
  }
  return words;
}

std::vector<KinsolSettings> candidate_settings(Matrix matrix, Start start) {
  std::vector<KinsolSettings> all;
  const std::vector<double> rungs =
      start == Start::warm ? std::vector{1.0} : std::vector{1.0, 0.3, 0.1, 0.03};
  for (const double rung : rungs) {
    for (const long steps : {1L, 3L, 10L}) {
      for (const bool monitor : {true, false}) {
        for (const bool line_search : {false, true}) {
          if (steps == 1 && !monitor) continue;
          all.push_back({matrix, line_search, steps, monitor, rung});
        }
      }
    }
  }
  return all;
}

/// The setting with the fewest failures, and among those the fastest: KINSOL at its best.
KinsolSettings best_settings(const StageProblem& problem,
                             const std::vector<Numbers>& variants,
                             Matrix matrix,
                             Start start) {
  const std::size_t pieces = std::min<std::size_t>(variants.size(), 4);
  KinsolSettings best;
  Timing best_timing{std::numeric_limits<double>::infinity(), pieces + 1};
  for (const KinsolSettings& settings : candidate_settings(matrix, start)) {
    StepCounts steps;
    const Timing timing =
        time_interleaved({kinsol(problem, variants, start, settings, steps)}, pieces, 1).front();
    if (std::pair(timing.failures, timing.median_us) <
        std::pair(best_timing.failures, best_timing.median_us)) {
      best = settings;
      best_timing = timing;
    }
  }
  return best;
}

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
