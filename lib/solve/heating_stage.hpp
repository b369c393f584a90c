// A stage whose heat sinks stand at any temperatures, its junctions in equilibrium with them: the
// right-hand side of the warm-up in time.
//
// Every state here is one bordered solve, warm-started from a neighbour. Used by solve/warm_up.
// Source: docs/models.md, "Heat".
#pragma once

#include <Eigen/Core>
#include <optional>

#include "circuit/checked_circuit.hpp"
#include "solve/heat_path.hpp"
#include "solve/operating_point.hpp"
#include "solve/state_finder.hpp"

namespace idlepoint::solve {

class HeatingStage {
 public:
  /// The warm state is meant, whatever `conditions.heat` says.
  HeatingStage(circuit::CheckedCircuit stage, const Conditions& conditions);
  HeatingStage(const HeatingStage&) = delete;
  HeatingStage& operator=(const HeatingStage&) = delete;

  /// Every heat sink at ambient, every junction at its own rise above that. Thermal trouble where a
  /// junction runs away or is too hot by its own resistance alone.
  [[nodiscard]] RestOrStory begin();

  /// Sinks held at these rises above ambient, [sinks]; none where `near` leads to no stable state
  /// there.
  [[nodiscard]] std::optional<Rest> hold(const Eigen::VectorXd& rise_k, const Rest& near);

  /// The end of an implicit step: rises s = base + seconds ds/dt(s), with `extra_w` [sinks] watts
  /// put into the sinks beside the parts' own.
  [[nodiscard]] std::optional<Rest> step(const Eigen::VectorXd& base_k,
                                         double seconds,
                                         const Eigen::VectorXd& extra_w,
                                         const Rest& near);

  /// Where no stable state lies ahead of `rest`: its junctions followed to another one with the
  /// sinks where they are; none below 400 C, or none at all. `passed`: the first maximum passed.
  [[nodiscard]] std::optional<Rest> leap(const Rest& rest, std::optional<ThermalTrouble>& passed);

  /// The equilibrium next to `near`; none without one, or where its loop gain is 1 or more.
  [[nodiscard]] std::optional<Rest> equilibrium(const Rest& near);

  /// [sinks] ds/dt at a state.
  [[nodiscard]] Eigen::VectorXd warming(const Rest& rest, const Eigen::VectorXd& extra_w) const;

  /// [sinks][sinks] d(ds/dt)/ds at the state made last, junctions following; empty without sinks.
  [[nodiscard]] Eigen::MatrixXd warming_by_rise(const Rest& rest);

  /// The state made last, as answers read it.
  [[nodiscard]] OperatingPoint moment(const Rest& rest);

  /// What is said of a state where a junction stands above its maximum.
  [[nodiscard]] ThermalTrouble trouble(ThermalTrouble::Kind kind, const Rest& rest) const {
    return finder_.trouble(kind, rest);
  }

  [[nodiscard]] const circuit::Circuit& circuit() const noexcept { return *stage_; }
  [[nodiscard]] const HeatModel& heat() const noexcept { return finder_.heat(); }
  [[nodiscard]] Eigen::Index sinks() const noexcept { return capacity_j_per_k_.size(); }
  /// Resistance times capacity of the slowest sink; 0 without sinks.
  [[nodiscard]] double slowest_s() const;

 private:
  [[nodiscard]] std::optional<Rest> settle(const HeatModel& heat, const Rest& near);
  [[nodiscard]] bool junctions_hold(const Rest& rest);
  [[nodiscard]] HeatModel held_at(const Eigen::VectorXd& rise_k) const;

  circuit::CheckedCircuit stage_;
  Conditions conditions_;
  Eigen::VectorXd capacity_j_per_k_;
  StateFinder finder_;
};

}  // namespace idlepoint::solve
