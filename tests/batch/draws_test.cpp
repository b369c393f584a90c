// Oracle: the Random123 library's own known-answer vector, and the moments and distribution of a
// rectangular variable (closed forms).
#include "solve/draws.hpp"

#include <Random123/philox.h>

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <vector>

using namespace idlepoint::solve;

TEST_CASE("Draws are Philox's words, 52 bits each", "[solve][published]") {
  // Philox4x32-10 of counter 0 and key 0: 6627e8d5 e169c58d bc57ac4c 9b00dbd8, the library's
  // known-answer file (from memory; the first pair of draws is computed from it by hand here).
  const double first =
      2.0 * (static_cast<double>(0xe169c58d6627e8d5ULL >> 12U) / 4503599627370496.0 - 0.5);
  const double second =
      2.0 * (static_cast<double>(0x9b00dbd8bc57ac4cULL >> 12U) / 4503599627370496.0 - 0.5);
  CHECK(draw(0, 0, 0) == first);
  CHECK(draw(0, 0, 1) == second);
}

TEST_CASE("Draws are even over -1 to 1 and independent of one another", "[solve][analytic]") {
  constexpr std::size_t count = 200000;
  std::vector<double> u;
  double sum = 0.0;
  double squares = 0.0;
  double neighbours = 0.0;
  for (std::size_t k = 0; k < count; ++k) {
    u.push_back(draw(1, k, 5));
    sum += u.back();
    squares += u.back() * u.back();
    neighbours += u.back() * draw(1, k, 6);
  }
  const double root = std::sqrt(static_cast<double>(count));
  // Four standard errors: of the mean 1/sqrt(3 N), of the variance sqrt(4/45 N), of the product
  // 1/(3 sqrt N).
  CHECK(std::abs(sum / count) < 4.0 / (std::sqrt(3.0) * root));
  CHECK(std::abs(squares / count - 1.0 / 3.0) < 4.0 * std::sqrt(4.0 / 45.0) / root);
  CHECK(std::abs(neighbours / count) < 4.0 / (3.0 * root));
  // Kolmogorov and Smirnov: sup |F_n - F| sqrt(N) exceeds 1.95 once in a thousand.
  std::sort(u.begin(), u.end());
  double distance = 0.0;
  for (std::size_t k = 0; k < count; ++k) {
    const double truth = 0.5 * (u[k] + 1.0);
    distance = std::max(distance, std::abs(truth - static_cast<double>(k) / count));
  }
  CHECK(distance * root < 1.95);
  CHECK(draw(1, 3, 5) != draw(2, 3, 5));
  CHECK(draw(1, 3, 5) != draw(1, 4, 5));
}
