#include "solve/time_steps.hpp"

#include <algorithm>
#include <cmath>

namespace idlepoint::solve {
namespace {

// gamma is the root of x^3 - 3 x^2 + 3/2 x - 1/6 between 1/6 and 1/2.
constexpr double gamma = 0.43586652150845899942;
constexpr double second_at_1 = 0.5 * (1.0 - gamma);
constexpr double end_at_1 = -0.25 * (6.0 * gamma * gamma - 16.0 * gamma + 1.0);
constexpr double end_at_2 = 0.25 * (6.0 * gamma * gamma - 20.0 * gamma + 5.0);
// Order 2 from the first two stages alone, which stand at gamma and (1 + gamma) / 2.
constexpr double plain_at_2 = (1.0 - 2.0 * gamma) / (1.0 - gamma);
constexpr double plain_at_1 = 1.0 - plain_at_2;

}  // namespace

std::optional<TimeStep> take_time_step(const ImplicitSolve& solve,
                                       const TimePoint& from,
                                       double seconds) {
  const double share = gamma * seconds;
  const auto slope_of = [&](const Eigen::VectorXd& base) -> std::optional<Eigen::VectorXd> {
    const auto value = solve(base, share);
    if (!value) return std::nullopt;
    return Eigen::VectorXd((*value - base) / share);
  };
  const auto first = slope_of(from.value);
  if (!first) return std::nullopt;
  const auto second = slope_of(from.value + seconds * second_at_1 * *first);
  if (!second) return std::nullopt;
  const Eigen::VectorXd base = from.value + seconds * (end_at_1 * *first + end_at_2 * *second);
  auto end = solve(base, share);
  if (!end) return std::nullopt;
  TimeStep step;
  step.end.seconds = from.seconds + seconds;
  step.end.per_s = (*end - base) / share;
  step.error = *end - from.value - seconds * (plain_at_1 * *first + plain_at_2 * *second);
  step.end.value = *std::move(end);
  return step;
}

double next_step_s(double seconds, double error) noexcept {
  constexpr double below = 0.9;
  constexpr double longest = 3.0;
  constexpr double shortest = 0.2;
  const double wanted = below / std::cbrt(std::max(error, 1e-9));
  return seconds * std::clamp(wanted, shortest, longest);
}

Eigen::VectorXd value_at(const std::vector<TimePoint>& points, double seconds) {
  const auto after = std::upper_bound(
      points.begin(), points.end(), seconds, [](double time, const TimePoint& point) {
        return time < point.seconds;
      });
  if (after == points.begin()) return points.front().value;
  if (after == points.end()) return points.back().value;
  const TimePoint& a = *std::prev(after);
  const TimePoint& b = *after;
  const double length = b.seconds - a.seconds;
  const double x = (seconds - a.seconds) / length;
  const double from_b = x * x * (3.0 - 2.0 * x);
  const double slope_a = x * (1.0 - x) * (1.0 - x) * length;
  const double slope_b = -x * x * (1.0 - x) * length;
  return (1.0 - from_b) * a.value + from_b * b.value + slope_a * a.per_s + slope_b * b.per_s;
}

}  // namespace idlepoint::solve
