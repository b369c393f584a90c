#include "answers/least_squares.hpp"

#include <Eigen/QR>
#include <algorithm>
#include <cmath>
#include <optional>

namespace idlepoint::answers {
namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

constexpr double difference_step = 1e-5;
constexpr int most_steps = 200;
constexpr int most_refusals = 30;
constexpr double smallest_step = 1e-13;
constexpr double smallest_decrease = 1e-13;  ///< Of the sum of squares, as a share of it.

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

struct Place {
  VectorXd z;
  VectorXd u;
  VectorXd residuals;
};

Place place_at(const Bounded& bounded, const VectorXd& z) {
  const VectorXd u = bounded.to_u(z);
  return {z, u, bounded.problem.residuals(u)};
}

/// A place with a smaller sum of squares, the step damped until there is one; none where even a
/// step at rounding finds none. The damping found is kept for the next step, a tenth of it.
std::optional<Place> better_place(const Bounded& bounded,
                                  const Place& here,
                                  const MatrixXd& jacobian,
                                  double& damping) {
  constexpr double longest_move = 4.0;
  for (int refusal = 0; refusal < most_refusals; ++refusal) {
    const VectorXd move = damped_step(jacobian, here.residuals, damping);
    const double longest = std::max(move.cwiseAbs().maxCoeff(), longest_move);
    Place next = place_at(bounded, here.z + move * (longest_move / longest));
    if (next.residuals.squaredNorm() < here.residuals.squaredNorm()) {
      damping = std::max(damping * 0.1, 1e-15);
      return next;
    }
    if ((next.u - here.u).cwiseAbs().maxCoeff() < smallest_step) return std::nullopt;
    damping *= 8.0;
  }
  return std::nullopt;
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
  Place here = place_at(bounded, bounded.to_z(start));
  double damping = 1e-3;
  for (int step = 0; step < most_steps; ++step) {
    const MatrixXd jacobian = slopes(problem, here.u) * bounded.u_by_z(here.u).asDiagonal();
    const auto next = better_place(bounded, here, jacobian, damping);
    if (!next) break;
    const double decrease = here.residuals.squaredNorm() - next->residuals.squaredNorm();
    const bool is_at_rest = decrease < smallest_decrease * here.residuals.squaredNorm() ||
                            (next->u - here.u).cwiseAbs().maxCoeff() < smallest_step;
    here = *next;
    if (is_at_rest) break;
  }
  return here.u;
}

}  // namespace idlepoint::answers
