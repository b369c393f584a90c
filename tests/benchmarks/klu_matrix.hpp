// A sparse matrix of one pattern, factored by SuiteSparse KLU: analysed once, then new values.
//
// Used by every Newton loop that stands for "KLU in place of our elimination".
#pragma once

#include <memory>
#include <span>

#include "benchmarks/equations.hpp"

namespace idlepoint::benchmarks {

enum class Pivots {
  kept,   ///< klu_refactor: the pivots of the first factorisation.
  fresh,  ///< klu_factor at every step.
};

class KluMatrix {
 public:
  KluMatrix(Pattern pattern, Pivots pivots);
  ~KluMatrix();
  KluMatrix(const KluMatrix&) = delete;
  KluMatrix& operator=(const KluMatrix&) = delete;

  /// Factors the matrix whose values stand in `slopes` [slots] and solves for `b` [unknowns] in
  /// place; false where KLU finds no factors.
  [[nodiscard]] bool solve(std::span<const double> slopes, std::span<double> b);

 private:
  struct Memory;
  Pattern pattern_;
  Pivots pivots_;
  std::unique_ptr<Memory> memory_;
};

}  // namespace idlepoint::benchmarks
