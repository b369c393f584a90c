// Oracle: the C library's long double exponential and logarithm, which are right to 2^-63.
#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <random>

#include "devices/exponential.hpp"

using namespace idlepoint::devices;

namespace {

constexpr double epsilon = std::numeric_limits<double>::epsilon();

double relative_error(double found, long double truth) {
  return static_cast<double>(std::abs((static_cast<long double>(found) - truth) / truth));
}

}  // namespace

TEST_CASE("The exponential is right to two units in the last place", "[devices][analytic]") {
  std::mt19937_64 draw(1);
  std::uniform_real_distribution<double> arguments(-690.0, 690.0);
  double worst = 0.0;
  for (int i = 0; i < 200000; ++i) {
    const double x = i % 2 == 0 ? arguments(draw) : arguments(draw) / 100.0;
    worst = std::max(worst, relative_error(exponential(x), std::exp(static_cast<long double>(x))));
  }
  CHECK(worst < 2.0 * epsilon);
  CHECK(exponential(0.0) == 1.0);
  CHECK(exponential(-1e9) == 0.0);
}

TEST_CASE("exp(x) - 1 keeps its digits near zero", "[devices][analytic]") {
  std::mt19937_64 draw(2);
  std::uniform_real_distribution<double> powers(-18.0, 1.8);
  double worst = 0.0;
  for (int i = 0; i < 200000; ++i) {
    const double size = std::pow(10.0, powers(draw));
    const double x = i % 2 == 0 ? std::min(size, 39.0) : -std::min(size, 39.0);
    worst = std::max(worst,
                     relative_error(growth(x).less_one, std::expm1(static_cast<long double>(x))));
  }
  CHECK(worst < 4.0 * epsilon);
  CHECK(growth(0.0).less_one == 0.0);
}

TEST_CASE("The logarithm is right to three units in the last place", "[devices][analytic]") {
  std::mt19937_64 draw(3);
  std::uniform_real_distribution<double> powers(-300.0, 300.0);
  double worst = 0.0;
  double worst_near_one = 0.0;
  for (int i = 0; i < 100000; ++i) {
    const double x = std::pow(10.0, powers(draw));
    worst = std::max(worst, relative_error(logarithm(x), std::log(static_cast<long double>(x))));
    const double y = std::pow(10.0, powers(draw) / 30.0);
    const double found = logarithm_of_one_plus(y);
    worst_near_one =
        std::max(worst_near_one, relative_error(found, std::log1p(static_cast<long double>(y))));
  }
  CHECK(worst < 3.0 * epsilon);
  CHECK(worst_near_one < 4.0 * epsilon);
  CHECK(logarithm(1.0) == 0.0);
}
