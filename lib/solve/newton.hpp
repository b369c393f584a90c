// Newton's method on the current balances of one compiled system.
//
// Used alone from a warm start, and as the inner loop of every continuation. Allocates nothing
// unless the fixed elimination order has to be given up for one step.
#pragma once

#include "solve/assembly.hpp"

namespace idlepoint::solve {

struct NewtonOptions {
  /// Fewer than 20 and cold starts of large stages begin to fail; a warm start takes 3 to 5.
  int most_steps = 80;
};

struct NewtonResult {
  bool settled = false;
  int steps = 0;
  bool singular = false;  ///< No step could be found, with pivoting either.
};

/// Steps from `state` until every balance is within rounding of zero and stays there. On success
/// `work` holds balances, tangents, slopes at the solution.
[[nodiscard]] NewtonResult iterate(const System& system,
                                   const Numbers& numbers,
                                   const Drive& drive,
                                   State& state,
                                   Work& work,
                                   const NewtonOptions& options = {});

/// Factors `work.slopes_s` into `work.factors`. A zero pivot is noticed by the solves that follow.
void factor_slopes(const System& system, Work& work);

/// Solves slopes * x = b (or its transpose) in place with the factors; b has unknowns + 1 elements.
/// Falls back to pivoting where the backward error is poor. False where the matrix is singular.
[[nodiscard]] bool solve_factored(const System& system,
                                  Work& work,
                                  std::span<double> b,
                                  Side side = Side::plain);

/// True where every balance of the assembled state is within rounding of zero.
[[nodiscard]] bool is_balanced(const System& system, const Work& work);

/// The unknown whose balance is worst, measured against its own tolerance.
[[nodiscard]] Index worst_balance(const System& system, const Work& work);

}  // namespace idlepoint::solve
