// The last word on a solution: every node's current balance, computed afresh from the laws.
#pragma once

#include "solve/assembly.hpp"

namespace idlepoint::solve {

struct BalanceCheck {
  bool holds = false;    ///< Every balance below 0.5 pA + 1e-9 of the largest current there.
  double worst_a = 0.0;  ///< The largest balance.
  Index unknown = 0;     ///< Where.
};

/// Assembles at `state` without limiting, then looks at every balance.
[[nodiscard]] BalanceCheck check_balance(const System& system,
                                         const Numbers& numbers,
                                         State& state,
                                         Work& work);

}  // namespace idlepoint::solve
