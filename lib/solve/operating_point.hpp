// A DC state that has converged and whose current balance has been checked.
//
// Only solve/solve_stage.cpp can make one. Answers read their numbers from here and nowhere else.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "circuit/checked_circuit.hpp"
#include "circuit/ids.hpp"
#include "solve/conditions.hpp"

namespace idlepoint::solve {

/// How a state was found.
struct SolverReport {
  int iterations = 0;
  std::string strategy;     ///< "newton", "conductance", "rails" or "pseudo-transient".
  double residual_a = 0.0;  ///< Worst current balance at any node, computed afresh from the laws.
};

enum class Conduction { off, active, saturated, reversed, forward, breakdown };

/// The word in JSON: "off", "active", ...
[[nodiscard]] std::string_view word(Conduction conduction) noexcept;

/// One part's state. Leads in the order of `circuit::lead_names`.
struct PartState {
  std::vector<double> lead_current_a;  ///< Into the part, a lead.
  double power_w = 0.0;  ///< Entering at its terminals: sum of volts to gnd times current.
  double junction_k = 0.0;
  std::optional<Conduction> conduction;  ///< Of diodes and transistors.
  bool over_stressed = false;            ///< Above a rating, or in emitter-base breakdown.
};

struct RailState {
  double voltage_v = 0.0;    ///< At the node.
  double delivered_a = 0.0;  ///< Out of the rail's source.
  double power_w = 0.0;      ///< Source voltage before its resistance, times current.
};

struct HeatsinkState {
  double temperature_k = 0.0;
  double power_w = 0.0;
};

class OperatingPoint {
 public:
  [[nodiscard]] double voltage_v(circuit::NodeId node) const { return node_v_.at(node.index); }
  [[nodiscard]] const PartState& part(circuit::PartId id) const { return parts_.at(id.index); }
  [[nodiscard]] const RailState& rail(circuit::RailId id) const { return rails_.at(id.index); }
  [[nodiscard]] const HeatsinkState& heatsink(circuit::HeatsinkId id) const {
    return heatsinks_.at(id.index);
  }
  [[nodiscard]] const SolverReport& solver() const noexcept { return solver_; }
  [[nodiscard]] const Conditions& conditions() const noexcept { return conditions_; }
  /// Supply power over the rails; stand-in sources do not count.
  [[nodiscard]] double total_power_w() const noexcept;
  /// True where the solver met an unstable balance and went on to this stable state.
  [[nodiscard]] bool has_other_states() const noexcept { return has_other_states_; }

  /// Thermal loop gain: what comes back of each extra watt; 0 in the cold state.
  [[nodiscard]] double loop_gain() const noexcept { return loop_gain_; }

  /// What a probe reads, SI (kelvin for celsius). Amps of a two-terminal part: first to second
  /// lead; of a transistor: collector or drain, positive in normal use for either polarity; of a
  /// rail: delivered.
  [[nodiscard]] double read(const circuit::Circuit& circuit, const circuit::Probe& probe) const;

 private:
  friend class OperatingPointMaker;
  OperatingPoint() = default;
  std::vector<double> node_v_;
  std::vector<PartState> parts_;
  std::vector<RailState> rails_;
  std::vector<HeatsinkState> heatsinks_;
  SolverReport solver_;
  Conditions conditions_;
  bool has_other_states_ = false;
  double loop_gain_ = 0.0;
};

}  // namespace idlepoint::solve
