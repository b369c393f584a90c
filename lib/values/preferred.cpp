#include "values/preferred.hpp"

#include <array>
#include <cmath>
#include <cstddef>

namespace idlepoint::values {
namespace {

constexpr std::array<int, 24> e24 = {10, 11, 12, 13, 15, 16, 18, 20, 22, 24, 27, 30,
                                     33, 36, 39, 43, 47, 51, 56, 62, 68, 75, 82, 91};

// Index along the endless series: 24 a decade, 0 at 1.0 of the unit.
double value_at(long index) {
  const long decade = static_cast<long>(std::floor(static_cast<double>(index) / 24.0));
  const int mantissa = e24.at(static_cast<std::size_t>(index - 24 * decade));
  // A division keeps 0.33 the double that the text 0.33 is; a product of 33 and 0.01 would not.
  const long power = decade - 1;
  return power >= 0 ? mantissa * std::pow(10.0, power) : mantissa / std::pow(10.0, -power);
}

// The series follows its formula to less than one step.
long index_near(double value) { return std::lround(24.0 * std::log10(value)); }

}  // namespace

double nearest_e24(double value) {
  const long about = index_near(value);
  double best = value_at(about);
  for (long index = about - 1; index <= about + 1; ++index) {
    const double candidate = value_at(index);
    if (std::abs(std::log(candidate / value)) < std::abs(std::log(best / value))) best = candidate;
  }
  return best;
}

double next_e24(double value, bool up) {
  constexpr double rounding = 1e-9;
  long index = index_near(value) + (up ? -2 : 2);
  while (up ? value_at(index) <= value * (1.0 + rounding)
            : value_at(index) >= value * (1.0 - rounding)) {
    index += up ? 1 : -1;
  }
  return value_at(index);
}

}  // namespace idlepoint::values
