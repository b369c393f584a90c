#include "benchmarks/klu_newton.hpp"

#include <klu.h>

#include <cmath>

#include "solve/balance_check.hpp"
#include "solve/newton.hpp"

namespace idlepoint::benchmarks {

struct KluNewton::Memory {
  klu_common common{};
  klu_symbolic* symbolic = nullptr;
  klu_numeric* numeric = nullptr;
  std::vector<double> values;

  ~Memory() {
    klu_free_numeric(&numeric, &common);
    klu_free_symbolic(&symbolic, &common);
  }
};

KluNewton::KluNewton(const solve::System& system, Pivots pivots)
    : system_(system),
      pattern_(find_pattern(system)),
      pivots_(pivots),
      memory_(std::make_unique<Memory>()) {
  klu_defaults(&memory_->common);
  memory_->values.resize(pattern_.slot.size());
  memory_->symbolic = klu_analyze(
      system.unknowns, pattern_.column_begin.data(), pattern_.row.data(), &memory_->common);
}

KluNewton::~KluNewton() = default;

bool KluNewton::take_step(solve::State& state, solve::Work& work) {
  Memory& m = *memory_;
  for (std::size_t k = 0; k < m.values.size(); ++k) {
    m.values[k] = work.slopes_s[static_cast<std::size_t>(pattern_.slot[k])];
  }
  int* columns = pattern_.column_begin.data();
  int* rows = pattern_.row.data();
  if (pivots_ == Pivots::kept && m.numeric != nullptr) {
    if (klu_refactor(columns, rows, m.values.data(), m.symbolic, m.numeric, &m.common) == 0) {
      return false;
    }
  } else {
    klu_free_numeric(&m.numeric, &m.common);
    m.numeric = klu_factor(columns, rows, m.values.data(), m.symbolic, &m.common);
    if (m.numeric == nullptr) return false;
  }
  const auto size = static_cast<std::size_t>(system_.unknowns);
  for (std::size_t k = 0; k < size; ++k) work.step[k] = -work.balance_a[k];
  if (klu_solve(m.symbolic, m.numeric, system_.unknowns, 1, work.step.data(), &m.common) == 0) {
    return false;
  }
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
