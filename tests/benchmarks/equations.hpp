// A square system of equations as another solver sees it: balances, slopes, pattern.
//
// Implemented by the stage's own equations (balance_equations) and by those of one lane with its
// heat (lane_equations); solved by kinsol_solver.
#pragma once

#include <span>
#include <vector>

#include "solve/elimination.hpp"

namespace idlepoint::benchmarks {

/// The entries of the matrix without fill, in compressed columns.
struct Pattern {
  std::vector<solve::Index> column_begin;  ///< [unknowns + 1]
  std::vector<solve::Index> row;           ///< [entries] ascending within a column.
  std::vector<solve::Index> slot;          ///< [entries] into `Equations::slopes`.

  [[nodiscard]] std::size_t unknowns() const noexcept { return column_begin.size() - 1; }
};

class Equations {
 public:
  Equations() = default;
  Equations(const Equations&) = delete;
  Equations& operator=(const Equations&) = delete;
  virtual ~Equations() = default;

  /// Balances and slopes at `x` [unknowns]: the laws where the voltages stand, without limiting.
  virtual void evaluate(std::span<const double> x) = 0;
  [[nodiscard]] virtual std::span<const double> balance() const = 0;  ///< At least [unknowns].
  [[nodiscard]] virtual std::span<const double> slopes() const = 0;   ///< [slots]
  [[nodiscard]] virtual const Pattern& pattern() const = 0;
  /// Fraction of every source, for a solver that climbs from nothing.
  virtual void set_sources(double fraction) = 0;
};

}  // namespace idlepoint::benchmarks
