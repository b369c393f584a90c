#include "answers/least_squares.hpp"

#include <Eigen/QR>
#include <algorithm>
#include <cmath>

namespace idlepoint::answers {
namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

constexpr double difference_step = 1e-5;
constexpr int most_steps = 200;
constexpr int most_refusals = 30;
constexpr double smallest_step = 1e-13;

/// u = low + (high - low) / (1 + exp(-z)).
struct Bounded {
  const LeastSquares& problem;

  [[nodiscard]] VectorXd to_u(const VectorXd& z) const {
    VectorXd u(z.size());
    for (Index i = 0; i < z.size(); ++i) {
      u[i] = problem.low[i] + (problem.high[i] - problem.low[i]) / (1.0 + std::exp(-z[i]));
    }
    return u;
  }
  [[nodiscard]] VectorXd to_z(const VectorXd& u) const {
    constexpr double nearest_share = 1e-6;
    VectorXd z(u.size());
    for (Index i = 0; i < u.size(); ++i) {
      const double share = std::clamp((u[i] - problem.low[i]) / (problem.high[i] - problem.low[i]),
                                      nearest_share,
                                      1.0 - nearest_share);
      z[i] = std::log(share / (1.0 - share));
    }
    return z;
  }
  [[nodiscard]] VectorXd u_by_z(const VectorXd& u) const {
    return ((u - problem.low).array() * (problem.high - u).array() /
            (problem.high - problem.low).array())
        .matrix();
  }
};

/// The step that minimises |J s + r|^2 + damping |D s|^2, D the length of J's columns.
VectorXd damped_step(const MatrixXd& jacobian, const VectorXd& residuals, double damping) {
  const Index rows = jacobian.rows();
  const Index columns = jacobian.cols();
  MatrixXd stacked = MatrixXd::Zero(rows + columns, columns);
  VectorXd right = VectorXd::Zero(rows + columns);
  stacked.topRows(rows) = jacobian;
  right.head(rows) = -residuals;
  for (Index i = 0; i < columns; ++i) {
    const double length = std::max(jacobian.col(i).norm(), 1e-12);
    stacked(rows + i, i) = std::sqrt(damping) * length;
  }
  return stacked.colPivHouseholderQr().solve(right);
}

}  // namespace

MatrixXd slopes(const LeastSquares& problem, const VectorXd& u) {
  MatrixXd jacobian;
  for (Index i = 0; i < u.size(); ++i) {
    VectorXd above = u;
    VectorXd below = u;
    above[i] += difference_step;
    below[i] -= difference_step;
    const VectorXd column =
        (problem.residuals(above) - problem.residuals(below)) / (2.0 * difference_step);
    if (i == 0) jacobian.resize(column.size(), u.size());
    jacobian.col(i) = column;
  }
  return jacobian;
}

VectorXd minimise(const LeastSquares& problem, const VectorXd& start) {
  if (start.size() == 0) return start;
  const Bounded bounded{problem};
  VectorXd z = bounded.to_z(start);
  VectorXd u = bounded.to_u(z);
  VectorXd residuals = problem.residuals(u);
  double damping = 1e-3;
  for (int step = 0; step < most_steps; ++step) {
    const MatrixXd jacobian = slopes(problem, u) * bounded.u_by_z(u).asDiagonal();
    bool is_better = false;
    double moved = 0.0;
    for (int refusal = 0; refusal < most_refusals && !is_better; ++refusal) {
      const VectorXd move = damped_step(jacobian, residuals, damping);
      constexpr double longest_move = 4.0;
      const double longest = move.cwiseAbs().maxCoeff();
      const VectorXd next_z = z + move * std::min(1.0, longest_move / std::max(longest, 1e-300));
      const VectorXd next_u = bounded.to_u(next_z);
      const VectorXd next = problem.residuals(next_u);
      moved = (next_u - u).cwiseAbs().maxCoeff();
      is_better = next.squaredNorm() < residuals.squaredNorm();
      if (is_better) {
        z = next_z;
        u = next_u;
        residuals = next;
        damping = std::max(damping * 0.1, 1e-15);
      } else {
        if (moved < smallest_step) return u;
        damping *= 8.0;
      }
    }
    if (!is_better || moved < smallest_step) return u;
  }
  return u;
}

}  // namespace idlepoint::answers
