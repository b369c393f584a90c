#include "benchmarks/klu_newton.hpp"

#include <cmath>

#include "benchmarks/balance_equations.hpp"
#include "solve/balance_check.hpp"
#include "solve/newton.hpp"

namespace idlepoint::benchmarks {

KluNewton::KluNewton(const solve::System& system, Pivots pivots)
    : system_(system), matrix_(find_pattern(system), pivots) {}

bool KluNewton::take_step(solve::State& state, solve::Work& work) {
  const auto size = static_cast<std::size_t>(system_.unknowns);
  for (std::size_t k = 0; k < size; ++k) work.step[k] = -work.balance_a[k];
  if (!matrix_.solve(work.slopes_s, work.step)) return false;
  for (std::size_t k = 0; k < size; ++k) state.x[k] += work.step[k];
  return true;
}

bool KluNewton::solve(const solve::Numbers& numbers, solve::State& state, solve::Work& work) {
  constexpr int most_steps = 80;
  const auto size = static_cast<std::size_t>(system_.unknowns);
  bool was_balanced = false;
  bool was_small_step = false;
  for (steps_ = 0; steps_ <= most_steps; ++steps_) {
    const bool arrived = solve::assemble(system_, numbers, {}, solve::Limiting::on, state, work);
    const bool balanced = arrived && solve::is_balanced(system_, work);
    if (balanced && (was_balanced || was_small_step)) {
      return solve::check_balance(system_, numbers, state, work).holds;
    }
    if (!take_step(state, work)) return false;
    was_balanced = balanced;
    was_small_step = true;
    for (std::size_t k = 0; k < size && was_small_step; ++k) {
      was_small_step = std::abs(work.step[k]) <= 1e-7 + 1e-9 * std::abs(state.x[k]);
    }
  }
  return false;
}

}  // namespace idlepoint::benchmarks
