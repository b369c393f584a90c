// The product's own Newton loop with SuiteSparse KLU in place of its elimination.
//
// The honest hard baseline: same laws, same limiting, same stopping test, the pattern analysed
// once; only the linear solver differs.
#pragma once

#include "benchmarks/klu_matrix.hpp"
#include "solve/assembly.hpp"

namespace idlepoint::benchmarks {

class KluNewton {
 public:
  KluNewton(const solve::System& system, Pivots pivots);

  /// Newton from `state`, in place, then the final balance check; `work` is prepared.
  [[nodiscard]] bool solve(const solve::Numbers& numbers, solve::State& state, solve::Work& work);

  [[nodiscard]] int steps() const noexcept { return steps_; }

  /// One factorisation and one solve with the slopes in `work`; false where KLU finds none.
  [[nodiscard]] bool take_step(solve::State& state, solve::Work& work);

 private:
  const solve::System& system_;
  KluMatrix matrix_;
  int steps_ = 0;
};

}  // namespace idlepoint::benchmarks
