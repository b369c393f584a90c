// How the incremental gain from the drive point to the output changes across the swing.
//
// One curve of the crossover answer. Gain is d(output)/d(drive), everything between following, by
// exact derivative: the slopes of the settled state are solved for a small current at the drive
// point, and the two volts that this moves are divided. Temperatures stay those of the state at
// rest: no part warms within a cycle.
#pragma once

#include <optional>
#include <vector>

#include "circuit/checked_circuit.hpp"
#include "solve/operating_point.hpp"

namespace idlepoint::answers {

/// Steps from the lowest to the highest drive; the middle one is the state at rest.
inline constexpr std::size_t gain_points = 201;

/// All three lists are alike long and ascend in drive.
struct GainCurve {
  std::vector<double> drive_v;   ///< To ground.
  std::vector<double> output_v;  ///< To ground.
  std::vector<double> gain;      ///< V/V.

  [[nodiscard]] double smallest() const;
  [[nodiscard]] double largest() const;
  [[nodiscard]] double mean() const;
  /// (largest - smallest) / |mean|.
  [[nodiscard]] double ripple() const;
  [[nodiscard]] double at_rest() const { return gain.at(gain.size() / 2); }
};

/// Drive moved by up to `swing_v` either way from where it stands in `rest`, a state of `stage`.
/// None where a point of the way has no state. Requires what `drive_by_hand` requires, and an odd
/// number of points.
[[nodiscard]] std::optional<GainCurve> gain_curve(const circuit::CheckedCircuit& stage,
                                                  const solve::OperatingPoint& rest,
                                                  double swing_v,
                                                  std::size_t points = gain_points);

}  // namespace idlepoint::answers
