// Steps in time of y' = f(y), where y = base + seconds f(y) can be solved for y.
//
// The three-stage singly diagonally implicit Runge-Kutta method of order 3, L-stable: its last
// stage is the step's end. A second solution of order 2 from the same stages gives the error. Used
// by solve/warm_up; knows nothing of heat.
// Source: [Alexander1977] in docs/sources.md.
#pragma once

#include <Eigen/Core>
#include <functional>
#include <optional>
#include <vector>

namespace idlepoint::solve {

/// Solves y = base + seconds f(y) for y; none where it cannot.
using ImplicitSolve =
    std::function<std::optional<Eigen::VectorXd>(const Eigen::VectorXd& base, double seconds)>;

struct TimePoint {
  double seconds = 0.0;
  Eigen::VectorXd value;
  Eigen::VectorXd per_s;  ///< f(value)
};

struct TimeStep {
  TimePoint end;
  Eigen::VectorXd error;  ///< Estimated, of `end.value`; of the third order in the step.
};

/// One step of `seconds` > 0; none where a stage cannot be solved. The last call of `solve` is the
/// step's end.
[[nodiscard]] std::optional<TimeStep> take_time_step(const ImplicitSolve& solve,
                                                     const TimePoint& from,
                                                     double seconds);

/// The next step's length: what would bring `error` (1 is just allowed) a little below 1, at most
/// three times and at least a fifth of the last.
[[nodiscard]] double next_step_s(double seconds, double error) noexcept;

/// Between the ends of steps: the cubic that has value and slope of both neighbours. Outside the
/// first and the last point: their values. Requires at least one point, in order of time.
[[nodiscard]] Eigen::VectorXd value_at(const std::vector<TimePoint>& points, double seconds);

}  // namespace idlepoint::solve
