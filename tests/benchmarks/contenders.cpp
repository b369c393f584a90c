#include "benchmarks/contenders.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <limits>
#include <memory>

#include "benchmarks/balance_equations.hpp"
#include "benchmarks/klu_newton.hpp"
#include "solve/find_state.hpp"

namespace idlepoint::benchmarks {

using solve::Numbers;

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

namespace {

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

}  // namespace

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

namespace {

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

}  // namespace

KinsolSettings best_settings(Matrix matrix,
                             Start start,
                             std::size_t pieces,
                             const std::function<Contender(const KinsolSettings&)>& make) {
  KinsolSettings best;
  Timing best_timing{std::numeric_limits<double>::infinity(), pieces + 1};
  for (const KinsolSettings& settings : candidate_settings(matrix, start)) {
    const Timing timing = time_interleaved({make(settings)}, pieces, 1).front();
    if (std::pair(timing.failures, timing.median_us) <
        std::pair(best_timing.failures, best_timing.median_us)) {
      best = settings;
      best_timing = timing;
    }
  }
  return best;
}

KinsolSettings best_settings(const StageProblem& problem,
                             const std::vector<Numbers>& variants,
                             Matrix matrix,
                             Start start) {
  StepCounts steps;
  return best_settings(matrix,
                       start,
                       std::clamp<std::size_t>(variants.size() / 8, 1, 4),
                       [&](const KinsolSettings& settings) {
                         return kinsol(problem, variants, start, settings, steps);
                       });
}

}  // namespace idlepoint::benchmarks
