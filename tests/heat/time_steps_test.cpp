// Oracle: equations whose solution is known: y' = -y^2 with y = 1 / (1 + t), the harmonic
// oscillator's cosine, exponential decay; the observed order of convergence.
#include "solve/time_steps.hpp"

#include <Eigen/LU>
#include <catch2/catch.hpp>
#include <cmath>
#include <vector>

namespace idlepoint::tests {
namespace {

using Catch::Matchers::WithinAbs;
using Eigen::VectorXd;
using solve::TimePoint;

VectorXd one(double value) { return VectorXd::Constant(1, value); }

/// y = base - s y^2, the positive root.
std::optional<VectorXd> falls_by_square(const VectorXd& base, double s) {
  return one((std::sqrt(1.0 + 4.0 * s * base[0]) - 1.0) / (2.0 * s));
}

/// In `steps` equal steps from 0 to `until_s`.
template <class Solve>
std::vector<TimePoint> march(const Solve& solve, TimePoint from, double until_s, int steps) {
  std::vector<TimePoint> points{std::move(from)};
  for (int k = 0; k < steps; ++k) {
    auto step = solve::take_time_step(solve, points.back(), until_s / steps);
    REQUIRE(step.has_value());
    points.push_back(std::move(step->end));
  }
  return points;
}

double observed_order(double error, double error_of_half_steps) {
  return std::log2(error / error_of_half_steps);
}

}  // namespace

TEST_CASE("Halving the time step leaves an eighth of the error", "[heat][order]") {
  const TimePoint start{0.0, one(1.0), one(-1.0)};
  const auto error = [&](int steps) {
    return std::abs(march(falls_by_square, start, 4.0, steps).back().value[0] - 0.2);
  };
  CHECK_THAT(observed_order(error(20), error(40)), WithinAbs(3.0, 0.15));
  CHECK_THAT(observed_order(error(40), error(80)), WithinAbs(3.0, 0.1));
}

TEST_CASE("The estimated error of one time step falls with the third power of its length",
          "[heat][order]") {
  const TimePoint start{0.0, one(1.0), one(-1.0)};
  const auto estimate = [&](double seconds) {
    return std::abs(solve::take_time_step(falls_by_square, start, seconds)->error[0]);
  };
  CHECK_THAT(observed_order(estimate(0.02), estimate(0.01)), WithinAbs(3.0, 0.1));
  const double true_error =
      std::abs(solve::take_time_step(falls_by_square, start, 0.1)->end.value[0] - 1.0 / 1.1);
  CHECK(true_error < estimate(0.1));
}

TEST_CASE("Two coupled values swing as cosine and sine", "[heat][order]") {
  const auto oscillator = [](const VectorXd& base, double s) -> std::optional<VectorXd> {
    Eigen::Matrix2d matrix;  // x' = -y, y' = x
    matrix << 1.0, s, -s, 1.0;
    return VectorXd(matrix.inverse() * base);
  };
  VectorXd value(2);
  value << 1.0, 0.0;
  VectorXd slope(2);
  slope << 0.0, 1.0;
  const auto error = [&](int steps) {
    const auto points = march(oscillator, TimePoint{0.0, value, slope}, 3.0, steps);
    VectorXd closed(2);
    closed << std::cos(3.0), std::sin(3.0);
    return (points.back().value - closed).norm();
  };
  CHECK_THAT(observed_order(error(30), error(60)), WithinAbs(3.0, 0.1));
}

TEST_CASE("A step far longer than the time constant ends at rest", "[heat][analytic]") {
  const auto decay = [](const VectorXd& base, double s) -> std::optional<VectorXd> {
    return VectorXd(base / (1.0 + s));
  };
  const auto step = solve::take_time_step(decay, TimePoint{0.0, one(1.0), one(-1.0)}, 1e9);
  REQUIRE(step.has_value());
  CHECK_THAT(step->end.value[0], WithinAbs(0.0, 1e-8));
}

TEST_CASE("Between two steps the curve has the fourth order", "[heat][order]") {
  const auto sampled = [](double length) {
    std::vector<TimePoint> points;
    for (const double t : {0.0, length}) {
      points.push_back({t, one(std::exp(-t)), one(-std::exp(-t))});
    }
    return points;
  };
  const auto error = [&](double length) {
    return std::abs(solve::value_at(sampled(length), 0.4 * length)[0] - std::exp(-0.4 * length));
  };
  CHECK_THAT(observed_order(error(0.2), error(0.1)), WithinAbs(4.0, 0.15));
  CHECK(solve::value_at(sampled(1.0), -1.0)[0] == 1.0);
  CHECK(solve::value_at(sampled(1.0), 2.0)[0] == std::exp(-1.0));
}

}  // namespace idlepoint::tests
