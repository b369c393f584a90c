#include "answers/linear_sum.hpp"

#include <algorithm>
#include <cmath>

namespace idlepoint::answers {
namespace {

double length(const DrawSlopes& slopes) {
  double sum = 0.0;
  for (const double slope : slopes) sum += slope * slope;
  return std::sqrt(sum);
}

}  // namespace

double deviation_of_a_draw() noexcept { return 1.0 / std::sqrt(3.0); }

double half_width(const DrawSlopes& slopes) {
  return coverage_factor * deviation_of_a_draw() * length(slopes);
}

std::vector<double> along(const DrawSlopes& slopes, double deviations) {
  const double size = length(slopes);
  std::vector<double> u(slopes.size(), 0.0);
  for (std::size_t k = 0; k < u.size() && size > 0.0; ++k) {
    u[k] = std::clamp(deviations * deviation_of_a_draw() * slopes[k] / size, -1.0, 1.0);
  }
  return u;
}

}  // namespace idlepoint::answers
