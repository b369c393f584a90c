// How well one suspect explains the readings: its parts moved within their tolerances, and the
// fault's own size, until the meter would show what it showed.
//
// The readings' density is the Gaussian one about the best place found: the maximum a posteriori
// and the curvature there (Laplace's approximation). Rectangular draws count with their standard
// deviation. Used by the diagnosis. Source: docs/how_it_diagnoses.md; [BellCathey1993] in
// docs/sources.md for the iteration.
#pragma once

#include <Eigen/Core>
#include <optional>
#include <vector>

#include "answers/unknowns.hpp"

namespace idlepoint::answers {

/// One channel of the amplifier: a stage and what the meter showed on it.
struct Channel {
  BenchStage* stage = nullptr;
  std::vector<Observed> readings;  ///< In the order of the stage's measurements.
};

/// A part of a size's range from -1 to 1, in which it is looked for.
struct SizeStretch {
  double low = -1.0;
  double high = 1.0;
};

/// The readings of a suspect, explained as well as can be. `unknowns`: independent, of standard
/// deviation 1 before the readings.
struct ToleranceFit {
  double log_evidence = 0.0;  ///< Natural logarithm of the density of the readings.
  double chi_square = 0.0;    ///< Of the readings against this suspect as a whole.
  std::vector<double> shown;  ///< [all readings] at the best place, the first channel's first.
  /// [the same] how far each reading is off what the others foretell, in standard deviations.
  std::vector<double> off;
  std::vector<double> u;               ///< [draws of the first channel] where the parts stand.
  std::vector<double> t;               ///< [its sizes]
  std::vector<SizeStretch> stretches;  ///< [the same] in which they were looked for.
  Eigen::VectorXd unknowns;            ///< Where they stand.
  Eigen::MatrixXd slopes;              ///< [all readings][unknowns] all taken at one place:
  std::vector<double> slopes_u;        ///< as `u`; where all is straight from there, not `u`.
  std::vector<double> slopes_t;        ///< as `t`
  Eigen::MatrixXd weights;             ///< Inverse covariance of the readings.
  bool is_straight = false;  ///< `shown` at the best place is drawn straight from an earlier one.
};

/// Where a fit begins.
struct FitStart {
  std::vector<SizeStretch> stretches;  ///< [sizes] from their middles, all draws in the middle.
  /// Instead: of the same suspect, to the first of the readings of the first channel and to all of
  /// the second's.
  const ToleranceFit* earlier = nullptr;
  /// What the readings of the first channel that came since show where the earlier fit ended,
  /// straight from where its slopes were taken: so is all else then, and no channel's stage is
  /// solved. Slopes of another place would not do: two points that hang together would come apart.
  const Shown* straight_from = nullptr;
};

/// None where the suspect has no state, where its evidence stays below `hopeless`, or where what it
/// shows comes as a surprise and was to be taken as straight.
[[nodiscard]] std::optional<ToleranceFit> fit_tolerances(const std::vector<Channel>& channels,
                                                         const FitStart& start,
                                                         double hopeless);

}  // namespace idlepoint::answers
