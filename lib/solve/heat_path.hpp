// The heat sinks followed in time, junctions in equilibrium with their sink at each instant.
//
// One implicit step of any method has the form of an equilibrium with other sink resistances, so
// the bordered Newton takes it unchanged. Used by the warm state where raising the resistances
// fails, and by the `warmup` answer.
#pragma once

#include <Eigen/Core>

#include "solve/heat_model.hpp"

namespace idlepoint::solve {

/// J/K assumed where a heat sink's statement gives no capacity.
inline constexpr double assumed_capacity_j_per_k = 300.0;

/// [sinks] J/K.
[[nodiscard]] Eigen::VectorXd sink_capacities(const circuit::Circuit& circuit);

/// The model whose equilibrium is the end of one implicit step: the sinks' rises s there obey
/// s = from_k + seconds * ds/dt(s), with capacity ds/dt = sum P - s / resistance.
[[nodiscard]] HeatModel implicit_step(const HeatModel& heat,
                                      const Eigen::VectorXd& capacity_j_per_k,
                                      const Eigen::VectorXd& from_k,
                                      double seconds);

}  // namespace idlepoint::solve
