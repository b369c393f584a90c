// The product's own Newton loop with SuiteSparse KLU in place of its elimination.
//
// The honest hard baseline: same laws, same limiting, same stopping test, the pattern analysed
// once; only the linear solver differs.
#pragma once

#include <memory>

#include "benchmarks/balance_equations.hpp"

namespace idlepoint::benchmarks {

enum class Pivots {
  kept,   ///< klu_refactor: the pivots of the first factorisation.
  fresh,  ///< klu_factor at every step.
};

class KluNewton {
 public:
  KluNewton(const solve::System& system, Pivots pivots);
  ~KluNewton();
  KluNewton(const KluNewton&) = delete;
  KluNewton& operator=(const KluNewton&) = delete;

  /// Newton from `state`, in place, then the final balance check; `work` is prepared.
  [[nodiscard]] bool solve(const solve::Numbers& numbers, solve::State& state, solve::Work& work);

  [[nodiscard]] int steps() const noexcept { return steps_; }

  /// One factorisation and one solve with the slopes in `work`; false where KLU finds none.
  [[nodiscard]] bool take_step(solve::State& state, solve::Work& work);

 private:
  struct Memory;
  const solve::System& system_;
  Pattern pattern_;
  Pivots pivots_;
  std::unique_ptr<Memory> memory_;
  int steps_ = 0;
};

}  // namespace idlepoint::benchmarks
