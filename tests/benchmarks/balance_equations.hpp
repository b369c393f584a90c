// The stage's own equations, offered to other solvers: balances, slopes, pattern, stopping test.
//
// Every solver that is compared evaluates the same compiled laws through this file and is judged by
// the same balance, so a ratio compares methods and not models.
#pragma once

#include <span>
#include <vector>

#include "solve/assembly.hpp"

namespace idlepoint::benchmarks {

/// One entry of the matrix without fill, in compressed columns.
struct Pattern {
  std::vector<solve::Index> column_begin;  ///< [unknowns + 1]
  std::vector<solve::Index> row;           ///< [entries] ascending within a column.
  std::vector<solve::Index> slot;          ///< [entries] into `Work::slopes_s`.
};

[[nodiscard]] Pattern find_pattern(const solve::System& system);

class BalanceEquations {
 public:
  explicit BalanceEquations(const solve::System& system);

  /// Takes other values, as every solver must before it starts.
  void take(const solve::Numbers& numbers);

  /// Fraction of every source, for a solver that climbs from nothing.
  void set_sources(double fraction) { drive_.sources = fraction; }

  /// Balances and slopes at `x` [unknowns]: the laws where the voltages stand, without limiting.
  void evaluate(std::span<const double> x);

  [[nodiscard]] const solve::System& system() const noexcept { return system_; }
  [[nodiscard]] const solve::Numbers& numbers() const noexcept { return *numbers_; }
  [[nodiscard]] const Pattern& pattern() const noexcept { return pattern_; }
  [[nodiscard]] solve::Work& work() noexcept { return work_; }

  /// [unknowns] the balance each node may keep, as the product's own Newton asks for it, at the
  /// state last evaluated.
  [[nodiscard]] std::vector<double> tolerances_a() const;

  /// The last word on any solver's answer: every balance, computed afresh.
  [[nodiscard]] bool balance_holds(std::span<const double> x);

 private:
  const solve::System& system_;
  const solve::Numbers* numbers_ = nullptr;
  Pattern pattern_;
  solve::Drive drive_;
  solve::Work work_;
  solve::State state_;
};

}  // namespace idlepoint::benchmarks
