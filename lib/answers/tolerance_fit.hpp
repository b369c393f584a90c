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

#include "answers/bench_stage.hpp"

namespace idlepoint::answers {

/// One channel of the amplifier: a stage and what the meter showed on it.
struct Channel {
  BenchStage* stage = nullptr;
  std::vector<Observed> readings;  ///< In the order of the stage's measurements.
};

/// The readings of a suspect, explained as well as can be. `unknowns`: independent, of standard
/// deviation 1 before the readings.
struct ToleranceFit {
  double log_evidence = 0.0;  ///< Natural logarithm of the density of the readings.
  double chi_square = 0.0;    ///< Of the readings against this suspect as a whole.
  std::vector<double> shown;  ///< [readings of the first channel] at the best place.
  /// [the same] how far each reading is off what the others foretell, in standard deviations.
  std::vector<double> off;
  std::vector<double> u;     ///< [draws of the first channel] where the parts stand.
  std::vector<double> t;     ///< [its sizes]
  Eigen::VectorXd unknowns;  ///< Where they stand.
  Eigen::MatrixXd slopes;    ///< [all readings][unknowns]
  Eigen::MatrixXd weights;   ///< Inverse covariance of the readings.
};

/// What the two channels of one amplifier share, and what each has of its own.
class Unknowns {
 public:
  /// `sound`: none where there is one channel.
  Unknowns(const BenchStage& suspect, const BenchStage* sound);

  [[nodiscard]] Eigen::Index count() const noexcept { return count_; }
  /// Draws and sizes of a channel at the unknowns.
  void place(std::size_t channel,
             const Eigen::VectorXd& unknowns,
             std::vector<double>& u,
             std::vector<double>& t) const;
  /// Rows of slopes by draw and size, as slopes by unknown.
  [[nodiscard]] Eigen::MatrixXd by_unknown(std::size_t channel,
                                           const std::vector<std::vector<double>>& by_draw) const;
  /// The unknown behind a size, of the first channel.
  [[nodiscard]] Eigen::Index of_size(std::size_t size) const { return sizes_[0][size]; }

 private:
  struct Term {
    Eigen::Index unknown;
    double factor;
  };
  std::vector<std::vector<std::vector<Term>>> draws_;  ///< [channels][draws]
  std::vector<std::vector<Eigen::Index>> sizes_;       ///< [channels][sizes]
  Eigen::Index count_ = 0;
};

/// Where a fit begins.
struct FitStart {
  std::vector<double> sizes;              ///< All draws in the middle.
  const ToleranceFit* earlier = nullptr;  ///< Instead: of the same suspect, to fewer readings.
};

/// None where the suspect has no state, or where its evidence stays below `hopeless`.
[[nodiscard]] std::optional<ToleranceFit> fit_tolerances(const std::vector<Channel>& channels,
                                                         const FitStart& start,
                                                         double hopeless);

}  // namespace idlepoint::answers
