#include "benchmarks/step_rows.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "solve/balance_check.hpp"
#include "solve/law_range.hpp"
#include "solve/newton.hpp"
#include "solve/stability.hpp"

namespace idlepoint::benchmarks {
namespace {

/// Every junction's law once, at the solution: the floor of an assembly.
double evaluate_laws(const StageProblem& problem) {
  double sum = 0.0;
  for (std::size_t k = 0; k < problem.nominal.bipolars.size(); ++k) {
    const auto [ube_v, ubc_v] = problem.solution.bipolar_v[k];
    sum += devices::evaluate_bipolar(problem.nominal.bipolars[k].at, ube_v, ubc_v).collector_a;
  }
  for (std::size_t k = 0; k < problem.nominal.diodes.size(); ++k) {
    sum += devices::evaluate_diode(problem.nominal.diodes[k].at, problem.solution.diode_v[k])
               .current_a;
  }
  for (std::size_t k = 0; k < problem.nominal.fets.size(); ++k) {
    sum += devices::evaluate_fet(problem.nominal.fets[k].at, problem.solution.fet_v[k][0], 10.0)
               .drain_a;
  }
  return sum;
}

}  // namespace

void print_step_rows(const StageProblem& problem, const Effort& effort) {
  const solve::System& system = problem.system;
  const solve::Numbers& numbers = problem.nominal;
  const solve::Elimination& elimination = system.elimination;
  solve::State state = problem.solution;
  solve::Work work;
  solve::prepare(system, numbers, work);
  solve::assemble(system, numbers, {}, solve::Limiting::on, state, work);
  std::vector<double> right(work.balance_a.size(), 1e-3);
  std::vector<double> factors = work.slopes_s;
  static_cast<void>(elimination.factor(factors));

  const auto piece = [](std::string name, auto run) {
    return Contender{std::move(name), [run](std::size_t) { return run(); }};
  };
  const std::vector<Contender> pieces{
      piece("device laws alone", [&] { return evaluate_laws(problem) != 0.0; }),
      piece("assembly, device laws included",
            [&] { return solve::assemble(system, numbers, {}, solve::Limiting::on, state, work); }),
      piece("copy and factor",
            [&] {
              std::copy(work.slopes_s.begin(), work.slopes_s.end(), work.factors.begin());
              return elimination.factor(work.factors);
            }),
      piece("back-substitution",
            [&] {
              std::copy(right.begin(), right.end(), work.step.begin());
              elimination.solve(factors, work.step, work.scratch);
              return true;
            }),
      piece("backward error",
            [&] {
              return elimination.backward_error(
                         work.slopes_s, work.step, right, work.product, work.scratch) < 1.0;
            }),
      piece("is it balanced", [&] { return solve::is_balanced(system, work); }),
      piece("prepare, once a solve",
            [&] {
              solve::prepare(system, numbers, work);
              return true;
            }),
      piece("balance computed afresh, once a solve",
            [&] { return solve::check_balance(system, numbers, state, work).holds; }),
      piece("range of the laws, once a solve",
            [&] { return !solve::find_outside_law(system, numbers, state, work); }),
      piece("stability, once a solve",
            [&] { return solve::is_stable(system, numbers, state, work); }),
      piece("copy of a state, once a solve", [&] {
        const solve::State copy = state;
        return copy.x.size() == state.x.size();
      })};
  const auto timings = time_interleaved(pieces, 1000, effort.rounds);
  fmt::print("\nWhere a step's time goes, ns\n");
  for (std::size_t k = 0; k < pieces.size(); ++k) {
    print_number(pieces[k].name, 1e3 * timings[k].median_us, "ns", "");
  }
}

}  // namespace idlepoint::benchmarks
