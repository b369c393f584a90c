// A stage at its solution, its numbers to be moved one at a time and solved again in full: the
// oracle of the sensitivities.
#pragma once

#include <string>
#include <vector>

#include "circuit/checked_circuit.hpp"
#include "circuit/uncertainty.hpp"
#include "solve/sensitivity.hpp"

namespace idlepoint::tests {

/// Readings and, where trimmers follow, their travels.
struct Moved {
  std::vector<double> readings;  ///< Of `MovedStage::probes`, travels fixed.
  std::vector<double> travels;   ///< [adjustments]
};

class MovedStage {
 public:
  /// Trimmers stand where the drawing has them; wanted readings keep what they then read, so that
  /// every position is a solution.
  MovedStage(circuit::CheckedCircuit stage, const solve::Conditions& conditions);

  /// Fails the test where the stage does not settle, or the adjoint has no solution.
  [[nodiscard]] solve::Sensitivities adjoint(
      const std::vector<circuit::Parameter>& parameters) const;

  /// Central difference with two step widths (extrapolation after Richardson): error of the fourth
  /// order. `change` moves the circuit by a step.
  template <class Change>
  [[nodiscard]] Moved slopes(double step, Change change) const {
    const Moved wide = difference(step, change);
    const Moved narrow = difference(0.5 * step, change);
    return combined(narrow, 4.0 / 3.0, wide, -1.0 / 3.0);
  }

  /// The same by one parameter.
  [[nodiscard]] Moved slopes(const circuit::Parameter& parameter) const;

  /// Every number of the drawing that the sensitivities follow.
  [[nodiscard]] std::vector<circuit::Parameter> every_parameter() const;

  [[nodiscard]] const circuit::Circuit& circuit() const { return *stage_; }
  [[nodiscard]] const std::vector<circuit::Probe>& probes() const { return probes_; }
  [[nodiscard]] std::size_t count_wanted() const { return stage_->adjustments.size(); }

 private:
  [[nodiscard]] Moved at(const circuit::CheckedCircuit& stage) const;
  [[nodiscard]] static Moved combined(const Moved& a, double by_a, const Moved& b, double by_b);

  template <class Change>
  [[nodiscard]] Moved difference(double step, Change change) const {
    const Moved above = at(stage_.edited([&](circuit::Circuit& copy) { change(copy, step); }));
    const Moved below = at(stage_.edited([&](circuit::Circuit& copy) { change(copy, -step); }));
    return combined(above, 0.5 / step, below, -0.5 / step);
  }

  [[nodiscard]] std::vector<solve::Wanted> wanted(const solve::System& system) const;

  circuit::CheckedCircuit stage_;
  solve::Conditions conditions_;
  std::vector<circuit::Probe> probes_;
  solve::Rest rest_;
  std::vector<double> targets_;
};

}  // namespace idlepoint::tests
