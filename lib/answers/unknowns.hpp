// What is not known of a suspect before the readings: where each part stands within its tolerance,
// and the sizes of the faults; of one channel, or of both channels of an amplifier.
//
// Used by the fit to the readings and by what is foretold from it. Source:
// docs/how_it_diagnoses.md, "The channel that works".
#pragma once

#include <Eigen/Core>
#include <numbers>
#include <vector>

#include "answers/bench_stage.hpp"

namespace idlepoint::answers {

/// Standard deviation of a draw, or a size, that is even over -1 to 1.
inline constexpr double deviation_of_draw = std::numbers::inv_sqrt3;

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

}  // namespace idlepoint::answers
