#include "answers/interpolation.hpp"

#include <algorithm>

namespace idlepoint::answers {
namespace {

// Slope at the joint of two chords, `width_1` and `width_2` long: their weighted harmonic mean.
double joint_slope(double width_1, double chord_1, double width_2, double chord_2) {
  if (chord_1 * chord_2 <= 0.0) return 0.0;
  const double weight_1 = 2.0 * width_2 + width_1;
  const double weight_2 = 2.0 * width_1 + width_2;
  return (weight_1 + weight_2) / (weight_1 / chord_1 + weight_2 / chord_2);
}

}  // namespace

std::size_t interval_of(const std::vector<double>& axis, double x) {
  const auto above = std::upper_bound(axis.begin() + 1, axis.end() - 1, x);
  return static_cast<std::size_t>(above - axis.begin()) - 1;
}

double between(const std::vector<double>& axis, std::size_t index, const Around& values, double x) {
  const double width = axis[index + 1] - axis[index];
  const double chord = (values.high - values.low) / width;
  double low_slope = chord;
  double high_slope = chord;
  if (values.before) {
    const double before_width = axis[index] - axis[index - 1];
    low_slope =
        joint_slope(before_width, (values.low - *values.before) / before_width, width, chord);
  }
  if (values.after) {
    const double after_width = axis[index + 2] - axis[index + 1];
    high_slope =
        joint_slope(width, chord, after_width, (*values.after - values.high) / after_width);
  }
  const double t = (x - axis[index]) / width;
  const double rest = 1.0 - t;
  return values.low * rest * rest * (1.0 + 2.0 * t) + values.high * t * t * (3.0 - 2.0 * t) +
         width * t * rest * (low_slope * rest - high_slope * t);
}

}  // namespace idlepoint::answers
