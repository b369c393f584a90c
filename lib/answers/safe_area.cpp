#include "answers/safe_area.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

namespace idlepoint::answers {
namespace {

using SafePoint = circuit::Ratings::SafePoint;

constexpr int steps_of_half_cycle = 720;

// With one point alone, on along constant watts.
double on_line(const SafePoint& from, const SafePoint& to, double voltage_v) {
  const double run = std::log(to.voltage_v / from.voltage_v);
  const double slope = run > 0.0 ? std::log(to.current_a / from.current_a) / run : -1.0;
  return from.current_a * std::pow(voltage_v / from.voltage_v, slope);
}

double below_first_a(const circuit::Ratings& ratings, double voltage_v, double power_share) {
  const SafePoint& first = ratings.safe_area.front();
  const double most_a = ratings.max_current_a.value_or(first.current_a);
  const double most_w = ratings.max_power_w.value_or(first.voltage_v * first.current_a);
  if (!(voltage_v > 0.0)) return most_a;
  return std::min(most_a, power_share * most_w / voltage_v);
}

/// Current over limit; infinite beyond the maximum voltage.
double fullness(const LoadLinePoint& point) {
  if (!(point.current_a > 0.0)) return 0.0;
  if (!(point.limit_a > 0.0)) return std::numeric_limits<double>::infinity();
  return point.current_a / point.limit_a;
}

}  // namespace

std::optional<double> safe_current_a(const circuit::Ratings& ratings,
                                     double voltage_v,
                                     double power_share) {
  const auto& area = ratings.safe_area;
  if (area.empty()) return std::nullopt;
  if (ratings.max_voltage_v && voltage_v > *ratings.max_voltage_v) return 0.0;
  if (voltage_v < area.front().voltage_v) return below_first_a(ratings, voltage_v, power_share);
  auto to = std::find_if(area.begin() + 1, area.end(), [&](const SafePoint& point) {
    return voltage_v <= point.voltage_v;
  });
  if (to == area.end()) --to;
  const auto& from = to == area.begin() ? *to : *(to - 1);
  return power_share * on_line(from, *to, voltage_v);
}

std::optional<LoadLinePoint> worst_point(const circuit::Ratings& ratings,
                                         double power_share,
                                         const LoadLine& line) {
  if (ratings.safe_area.empty() || !(line.peak_a > 0.0)) return std::nullopt;
  LoadLinePoint worst;
  double fullest = -1.0;
  for (int step = 1; step < steps_of_half_cycle; ++step) {
    const double t = std::numbers::pi * step / steps_of_half_cycle;
    LoadLinePoint point;
    point.voltage_v = line.supply_v - line.peak_v * std::sin(t + line.phase_rad);
    point.current_a = line.peak_a * std::sin(t);
    point.limit_a = *safe_current_a(ratings, point.voltage_v, power_share);
    const double full = fullness(point);
    const bool is_worse = full > fullest || (full == fullest && point.current_a > worst.current_a);
    if (is_worse) {
      worst = point;
      fullest = full;
    }
  }
  return worst;
}

std::optional<double> widest_safe_phase_rad(const circuit::Ratings& ratings,
                                            double power_share,
                                            LoadLine line) {
  constexpr double widest_rad = std::numbers::pi / 2.0;
  constexpr double close_rad = std::numbers::pi / 18000.0;
  const auto is_safe = [&](double phase_rad) {
    line.phase_rad = phase_rad;
    const auto worst = worst_point(ratings, power_share, line);
    return worst && fullness(*worst) <= 1.0;
  };
  if (!is_safe(0.0)) return std::nullopt;
  if (is_safe(widest_rad)) return widest_rad;
  double safe_rad = 0.0;
  double unsafe_rad = widest_rad;
  while (unsafe_rad - safe_rad > close_rad) {
    const double middle_rad = 0.5 * (safe_rad + unsafe_rad);
    (is_safe(middle_rad) ? safe_rad : unsafe_rad) = middle_rad;
  }
  return safe_rad;
}

}  // namespace idlepoint::answers
