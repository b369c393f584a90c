// The currents of ideal branches, recovered from the currents of everything around them.
//
// Within a group of joined points the balances at its points determine the branch currents; where
// branches close a loop they share as equal small resistances would: a Laplacian with unit weights.
// Source of the convention: docs/how_it_solves.md. Used after a solve, never inside one.
#pragma once

#include <memory>
#include <span>
#include <vector>

#include "solve/system.hpp"

namespace idlepoint::solve {

class IdealCurrents {
 public:
  explicit IdealCurrents(const System& system);
  ~IdealCurrents();
  IdealCurrents(const IdealCurrents&) = delete;
  IdealCurrents& operator=(const IdealCurrents&) = delete;

  /// [ideals] current from a to b through each branch. `leaving_a`: [points] the sum of the
  /// currents that leave each point into everything else.
  [[nodiscard]] std::vector<double> currents(std::span<const double> leaving_a) const;

  /// [points] w with: current of `ideal` = sum of w times the leaving currents.
  [[nodiscard]] std::vector<double> weights(std::size_t ideal) const;

 private:
  struct Laplacian;
  const System& system_;
  std::unique_ptr<Laplacian> laplacian_;
};

}  // namespace idlepoint::solve
