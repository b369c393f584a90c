// Oracle: straight lines and exponentials themselves; a curve without overshoot stays between its
// ends [FritschButland1984].
#include <catch2/catch.hpp>
#include <cmath>

#include "answers/interpolation.hpp"

namespace idlepoint::tests {
namespace {

using answers::Around;
using answers::between;
using Catch::Matchers::WithinAbs;

const std::vector<double> uneven = {0.0, 0.1, 0.35, 0.5, 1.0};

// The curve through `law` at `x`, from four places of `uneven`.
template <class Law>
double interpolated(const std::vector<double>& axis, Law&& law, double x) {
  const std::size_t index = answers::interval_of(axis, x);
  Around around{{}, law(axis[index]), law(axis[index + 1]), {}};
  if (index > 0) around.before = law(axis[index - 1]);
  if (index + 2 < axis.size()) around.after = law(axis[index + 2]);
  return between(axis, index, around, x);
}

// The largest departure from an exponential over `steps` even intervals.
double largest_error(int steps) {
  std::vector<double> axis;
  for (int k = 0; k <= steps; ++k) axis.push_back(static_cast<double>(k) / steps);
  const auto law = [](double x) { return std::exp(3.0 * x); };
  double largest = 0.0;
  for (double x = 0.0; x <= 1.0; x += 1.0 / 512.0) {
    largest = std::max(largest, std::abs(interpolated(axis, law, x) - law(x)));
  }
  return largest;
}

}  // namespace

TEST_CASE("A straight line is drawn as a straight line through uneven places",
          "[sheet][identity]") {
  const auto law = [](double x) { return 3.0 - 7.0 * x; };
  for (double x = 0.0; x <= 1.0; x += 1.0 / 64.0) {
    CHECK_THAT(interpolated(uneven, law, x), WithinAbs(law(x), 1e-12));
  }
}

TEST_CASE("A curve through a step stays between the two sides of it", "[sheet][identity]") {
  const auto law = [](double x) { return x < 0.4 ? 0.0 : 1.0; };
  for (double x = 0.0; x <= 1.0; x += 1.0 / 256.0) {
    CHECK(interpolated(uneven, law, x) >= -1e-15);
    CHECK(interpolated(uneven, law, x) <= 1.0 + 1e-15);
  }
}

TEST_CASE("Half the step draws an exponential at least four times as well", "[sheet][order]") {
  const double coarse = largest_error(16);
  const double fine = largest_error(32);
  CAPTURE(coarse, fine);
  CHECK(fine < 0.25 * coarse * 1.05);
}

}  // namespace idlepoint::tests
