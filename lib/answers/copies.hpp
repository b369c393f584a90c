// Copies of one stage whose numbers differ as tolerances and spreads let them: solved one after the
// other from the stage as drawn.
//
// Used by the bands. A copy's state depends on its draws alone, not on the copies before it.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "circuit/uncertainty.hpp"
#include "solve/sensitivity.hpp"

namespace idlepoint::answers {

/// What is looked at in every copy.
struct Looked {
  std::vector<circuit::Probe> probes;          ///< Trimmers as they stand.
  std::vector<circuit::Adjustment> following;  ///< Each keeps what its reading is now.
};

class Copies {
 public:
  Copies(const circuit::CheckedCircuit& stage, const solve::Conditions& conditions, Looked looked);
  Copies(const Copies&) = delete;
  Copies& operator=(const Copies&) = delete;

  /// False where the stage as drawn has no state; nothing else may be asked then.
  [[nodiscard]] bool is_sound() const noexcept { return nominal_.has_value(); }

  [[nodiscard]] const circuit::Uncertainty& uncertainty() const noexcept { return uncertainty_; }
  [[nodiscard]] const Looked& looked() const noexcept { return looked_; }

  /// [probes] as drawn, SI.
  [[nodiscard]] const std::vector<double>& nominal() const noexcept { return nominal_values_; }
  /// [following] travels as drawn.
  [[nodiscard]] const std::vector<double>& travels() const noexcept { return travels_; }

  /// [quantities][draws] slopes by each draw at its middle: probes, then travels.
  [[nodiscard]] std::optional<std::vector<std::vector<double>>> slopes();

  /// [probes] with the draws at `u`; empty where that copy has no state.
  [[nodiscard]] std::optional<std::vector<double>> read(std::span<const double> u);

  /// [following] travels with the draws at `u`; empty where no place on the tracks keeps all the
  /// readings.
  [[nodiscard]] std::optional<std::vector<double>> place(std::span<const double> u);

 private:
  void load(std::span<const double> u);
  [[nodiscard]] const solve::Rest* settle(std::span<const double> u);
  [[nodiscard]] std::vector<double> read_now(const solve::Rest& rest);
  [[nodiscard]] std::vector<solve::Wanted> wanted();

  circuit::CheckedCircuit stage_;
  solve::Conditions conditions_;
  Looked looked_;
  circuit::Uncertainty uncertainty_;
  circuit::Circuit copy_;  ///< What the finder solves; its numbers change in place.
  solve::StateFinder finder_;
  std::optional<solve::Rest> nominal_;
  std::optional<solve::Rest> moved_;
  std::vector<double> nominal_values_;
  std::vector<double> targets_;
  std::vector<double> travels_;
};

}  // namespace idlepoint::answers
