// Makes a circuit ready for many variants at once: see solve/lane_plan.
//
// Used by solve/batch.
#pragma once

#include <optional>
#include <span>

#include "solve/bordered_newton.hpp"
#include "solve/lane_plan.hpp"

namespace idlepoint::solve {

/// A nominal state for the lanes to start from.
struct LaneStart {
  BorderedState at;
  Eigen::VectorXd power_w;
  Eigen::VectorXd sink_rise_k;
  std::vector<double> slope_per_travel;  ///< [wanted] of each reading by its own trimmer.
};

/// Nothing where a parameter moves a number that lanes do not move (an ideality, a band gap): such
/// variants go to the scalar solver. `wanted` names the trimmers that follow their targets.
[[nodiscard]] std::optional<LanePlan> make_lane_plan(const circuit::Circuit& circuit,
                                                     const StageSolver& solver,
                                                     const HeatModel& heat,
                                                     const LaneStart& start,
                                                     const circuit::Uncertainty& uncertainty,
                                                     std::span<const circuit::Probe> probes,
                                                     std::span<const Wanted> wanted);

}  // namespace idlepoint::solve
