// The smallest sum of squares of residuals whose variables have bounds.
//
// Used by answers/fit. Levenberg's and Marquardt's damped steps, each solved by QR of the Jacobian
// itself; a variable keeps inside its bounds by a smooth change of variable.
// Source: [Levenberg1944], [Marquardt1963] in docs/sources.md.
#pragma once

#include <Eigen/Core>
#include <functional>
#include <vector>

namespace idlepoint::answers {

struct LeastSquares {
  /// As many residuals as at the last call; all finite.
  std::function<Eigen::VectorXd(const Eigen::VectorXd& u)> residuals;
  Eigen::VectorXd low;   ///< Bounds of u, of its own length.
  Eigen::VectorXd high;  ///< Above `low`.
};

/// The residuals' slopes by central differences: a row a residual, a column a variable. Variables
/// are of order one.
[[nodiscard]] Eigen::MatrixXd slopes(const LeastSquares& problem, const Eigen::VectorXd& u);

/// A local minimum found from `start`, which lies between the bounds: where the step or the
/// decrease of the sum is at rounding, or after 200 steps.
[[nodiscard]] Eigen::VectorXd minimise(const LeastSquares& problem, const Eigen::VectorXd& start);

}  // namespace idlepoint::answers
