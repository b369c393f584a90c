// SUNDIALS KINSOL on the stage's own equations, dense or sparse through SuiteSparse KLU.
//
// The Jacobian is the analytic one of the product's assembly. Every setting that can matter is a
// parameter, so that the benchmark can look for the best one and compare against that.
#pragma once

#include <memory>
#include <span>

#include "benchmarks/equations.hpp"

namespace idlepoint::benchmarks {

enum class Matrix { dense, klu };

struct KinsolSettings {
  Matrix matrix = Matrix::klu;
  bool line_search = false;
  long steps_per_jacobian = 1;     ///< 1 is exact Newton; KINSOL's own default is 10.
  bool residual_monitor = true;    ///< Decides by itself when the Jacobian is too old.
  double first_source_rung = 1.0;  ///< Of a climb from zero; 1 tries the whole at once.
};

class KinsolSolver {
 public:
  /// `tolerances_a` [unknowns]: the balance at which KINSOL stops.
  KinsolSolver(Equations& equations,
               const KinsolSettings& settings,
               std::span<const double> tolerances_a);
  ~KinsolSolver();
  KinsolSolver(const KinsolSolver&) = delete;
  KinsolSolver& operator=(const KinsolSolver&) = delete;

  /// From `x` [unknowns] as it stands, in place.
  [[nodiscard]] bool solve(std::span<double> x);

  /// From zero, raising the sources by degrees; a rung that fails is quartered, one that holds is
  /// doubled. Rungs on the way stop at a balance of 1 uA.
  [[nodiscard]] bool solve_by_stepping(std::span<double> x);

  /// Newton steps of the last solve, all rungs together.
  [[nodiscard]] long steps() const noexcept { return steps_; }

 private:
  struct Memory;
  bool run(std::span<double> x, bool is_final);

  Equations& equations_;
  KinsolSettings settings_;
  std::unique_ptr<Memory> memory_;
  long steps_ = 0;
};

}  // namespace idlepoint::benchmarks
