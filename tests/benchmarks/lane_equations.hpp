// One lane's equations, watts and sinks as further unknowns, offered to other solvers.
//
// The warm state as the lanes see it: the pattern of a LanePlan without fill, balances and slopes
// from solve/lane_assembly with plain doubles. Travels are not among them.
#pragma once

#include "benchmarks/balance_equations.hpp"
#include "benchmarks/klu_matrix.hpp"
#include "solve/lane_assembly.hpp"

namespace idlepoint::benchmarks {

[[nodiscard]] Pattern find_pattern(const solve::LanePlan& plan);

class LaneEquations : public Equations {
 public:
  explicit LaneEquations(const solve::LanePlan& plan)
      : plan_(plan), assembly_(plan), pattern_(find_pattern(plan)) {
    assembly_.set_limiting(solve::Limiting::off);
  }

  /// Takes the variant whose draws stand at `u`.
  void take(std::span<const double> u) {
    assembly_.load(u);
    assembly_.stand_at_nominal();
  }

  /// Of the drivable sources there is none: only the stage as it is.
  void set_sources(double) override {}
  void evaluate(std::span<const double> x) override;
  [[nodiscard]] std::span<const double> balance() const override { return assembly_.balance; }
  [[nodiscard]] std::span<const double> slopes() const override { return assembly_.slopes; }
  [[nodiscard]] const Pattern& pattern() const override { return pattern_; }

  /// [rows] the balance each row may keep, as the lanes ask for it, at the state last evaluated.
  [[nodiscard]] std::vector<double> tolerances() const;
  [[nodiscard]] bool balance_holds(std::span<const double> x);

 private:
  const solve::LanePlan& plan_;
  solve::LaneAssembly<double> assembly_;
  Pattern pattern_;
};

/// The lanes' own Newton loop on one lane, KLU in place of the elimination.
class KluLaneNewton {
 public:
  explicit KluLaneNewton(const solve::LanePlan& plan)
      : plan_(plan),
        assembly_(plan),
        matrix_(find_pattern(plan), Pivots::kept),
        step_(static_cast<std::size_t>(plan.rows) + 1) {}

  /// From the nominal state.
  [[nodiscard]] bool solve(std::span<const double> u);
  [[nodiscard]] int steps() const noexcept { return steps_; }

 private:
  [[nodiscard]] bool take_step(bool& was_small);

  const solve::LanePlan& plan_;
  solve::LaneAssembly<double> assembly_;
  KluMatrix matrix_;
  std::vector<double> step_;
  int steps_ = 0;
};

}  // namespace idlepoint::benchmarks
