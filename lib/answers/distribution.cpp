#include "answers/distribution.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace idlepoint::answers {

double value_below_which(double part, const std::vector<double>& sorted) {
  const double place = part * static_cast<double>(sorted.size() - 1);
  const auto below = static_cast<std::size_t>(place);
  const std::size_t above = std::min(below + 1, sorted.size() - 1);
  const double share = place - static_cast<double>(below);
  return sorted[below] + share * (sorted[above] - sorted[below]);
}

std::optional<Distribution> distribution_of(std::vector<double> values) {
  if (values.empty()) return std::nullopt;
  const auto count = static_cast<double>(values.size());
  Distribution found;
  found.mean = std::accumulate(values.begin(), values.end(), 0.0) / count;
  double squares = 0.0;
  for (const double value : values) squares += (value - found.mean) * (value - found.mean);
  if (values.size() > 1) found.deviation = std::sqrt(squares / (count - 1.0));
  std::sort(values.begin(), values.end());
  found.p2_5 = value_below_which(0.025, values);
  found.p50 = value_below_which(0.5, values);
  found.p97_5 = value_below_which(0.975, values);
  return found;
}

}  // namespace idlepoint::answers
