// The residuals of a set of points as a function of the law's fields.
//
// Used by answers/fit: which fields are free, which drawn to their usual value, which left out.
#pragma once

#include <Eigen/Core>
#include <optional>
#include <vector>

#include "answers/fit_parameters.hpp"
#include "answers/fit_targets.hpp"
#include "answers/least_squares.hpp"
#include "answers/predict_point.hpp"

namespace idlepoint::answers {

/// What becomes of a variable.
enum class Use {
  free,
  pulled,   ///< Free, but drawn to its usual value as if that were known to its width.
  left_out  ///< The law does without it.
};

class FitProblem {
 public:
  explicit FitProblem(const circuit::TypePoints& asked);

  [[nodiscard]] const std::vector<FitParameter>& parameters() const { return parameters_; }
  [[nodiscard]] const std::vector<FitTarget>& targets() const { return targets_; }

  /// One a variable; all free at first, at u = 0.
  std::vector<Use> uses;
  Eigen::VectorXd u;
  /// The law at the present `u`.
  [[nodiscard]] Law law() const { return law_at(u); }

  /// What the law at the present `u` gives at a point; none where it has no such state.
  [[nodiscard]] std::optional<double> predicted(const Law& law, std::size_t point) const;

  /// Changes the free and pulled variables to those that fit best.
  void fit();

  /// Slopes of the points' residuals (three rows a point: value, lower and upper limit) by all
  /// variables, at the present `u`.
  [[nodiscard]] Eigen::MatrixXd point_slopes() const;
  static constexpr Eigen::Index rows_a_point = 3;

  /// The points whose limit the law at the present `u` touches or breaks.
  [[nodiscard]] std::vector<std::size_t> touched_limits() const;

 private:
  [[nodiscard]] bool is_moving(std::size_t variable) const {
    return uses[variable] == Use::free || uses[variable] == Use::pulled;
  }
  [[nodiscard]] Law law_at(const Eigen::VectorXd& there) const;
  [[nodiscard]] Eigen::VectorXd point_residuals(const Law& law) const;
  [[nodiscard]] Eigen::VectorXd bounds(double FitParameter::*bound) const;

  const circuit::TypePoints& asked_;
  std::vector<FitParameter> parameters_;
  std::vector<FitTarget> targets_;
  mutable std::vector<InnerVolts> starts_;  ///< Where the last prediction of a point came to rest.
};

}  // namespace idlepoint::answers
