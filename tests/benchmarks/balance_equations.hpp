// The stage's own equations, offered to other solvers: balances, slopes, pattern, stopping test.
//
// Every solver that is compared evaluates the same compiled laws through this file and is judged by
// the same balance, so a ratio compares methods and not models.
#pragma once

#include <set>
#include <span>
#include <tuple>
#include <vector>

#include "benchmarks/equations.hpp"
#include "solve/assembly.hpp"

namespace idlepoint::benchmarks {

/// Column, row, slot.
using Entries = std::set<std::tuple<solve::Index, solve::Index, solve::Index>>;
[[nodiscard]] Pattern compressed(const Entries& entries, solve::Index unknowns);

[[nodiscard]] Pattern find_pattern(const solve::System& system);

class BalanceEquations : public Equations {
 public:
  explicit BalanceEquations(const solve::System& system);

  /// Takes other values, as every solver must before it starts.
  void take(const solve::Numbers& numbers);

  void set_sources(double fraction) override { drive_.sources = fraction; }
  void evaluate(std::span<const double> x) override;
  [[nodiscard]] std::span<const double> balance() const override { return work_.balance_a; }
  [[nodiscard]] std::span<const double> slopes() const override { return work_.slopes_s; }
  [[nodiscard]] const Pattern& pattern() const override { return pattern_; }

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
