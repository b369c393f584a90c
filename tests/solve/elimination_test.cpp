// Oracle: Eigen's dense LU with full pivoting, on random matrices of a stage's own kind.
#include "solve/elimination.hpp"

#include <Eigen/Dense>
#include <catch2/catch.hpp>
#include <random>

namespace idlepoint::solve {
namespace {

using Matrix = Eigen::MatrixXd;
using Vector = Eigen::VectorXd;

/// A random pattern, its elimination, and numbers to put into it.
class Problem {
 public:
  Problem(Index size, unsigned seed) : size_(size), random_(seed) {
    std::uniform_int_distribution<Index> any(0, size - 1);
    for (Index k = 0; k < 3 * size; ++k) entries_.emplace_back(any(random_), any(random_));
    for (Index k = 0; k + 1 < size; ++k) entries_.emplace_back(k, k + 1);
    elimination = Elimination(size, entries_);
    values.assign(static_cast<std::size_t>(elimination.slots()), 0.0);
    dense = Matrix::Zero(size, size);
  }

  void put(Index row, Index column, double value) {
    values[static_cast<std::size_t>(elimination.slot(row, column))] += value;
    dense(row, column) += value;
  }

  /// Resistances over eight decades and a few controlled currents, as in a stage.
  void fill_like_a_stage() {
    for (const auto& [a, b] : entries_) {
      if (a == b) continue;
      const double g = std::pow(10.0, decades_(random_));
      const double controlled = 0.3 * g * unit_(random_);
      put(a, a, g + controlled);
      put(b, b, g);
      put(a, b, -g);
      put(b, a, -g - controlled);
    }
    for (Index k = 0; k < size_; ++k) put(k, k, 1e-6);
  }

  /// Signs as they fall, diagonal too.
  void fill_at_random() {
    for (const auto& [a, b] : entries_) {
      if (a == b) continue;
      put(a, b, unit_(random_));
      put(b, a, unit_(random_));
    }
    for (Index k = 0; k < size_; ++k) put(k, k, unit_(random_));
  }

  [[nodiscard]] Vector random_vector() {
    return Vector::NullaryExpr(size_, [&] { return unit_(random_); });
  }

  Elimination elimination;
  std::vector<double> values;
  Matrix dense;

 private:
  Index size_;
  std::mt19937 random_;
  std::uniform_real_distribution<double> unit_{-1.0, 1.0};
  std::uniform_real_distribution<double> decades_{-6.0, 2.0};
  std::vector<std::pair<Index, Index>> entries_;
};

std::span<double> span(Vector& v) { return {v.data(), static_cast<std::size_t>(v.size())}; }
std::span<const double> view(const Vector& v) {
  return {v.data(), static_cast<std::size_t>(v.size())};
}

Vector solve_by_factors(const Problem& problem, const Vector& right) {
  std::vector<double> factors = problem.values;
  REQUIRE(problem.elimination.factor(factors));
  Vector x = right;
  Vector scratch(x.size());
  problem.elimination.solve(factors, span(x), span(scratch));
  return x;
}

double backward_error(const Problem& problem,
                      const Vector& x,
                      const Vector& right,
                      Side side = Side::plain) {
  Vector left(x.size());
  Vector sum(x.size());
  return problem.elimination.backward_error(
      problem.values, view(x), view(right), span(left), span(sum), side);
}

}  // namespace

TEST_CASE("The fixed order solves a stage's equations as well as dense full pivoting",
          "[solve][analytic]") {
  const auto seed = GENERATE(range(0U, 40U));
  const auto size = static_cast<Index>(1 + 7 * (seed % 10));
  Problem problem(size, seed);
  problem.fill_like_a_stage();
  const Vector right = problem.random_vector();
  const Vector x = solve_by_factors(problem, right);
  const Vector expected = problem.dense.fullPivLu().solve(right);
  CAPTURE(seed, size);
  CHECK(backward_error(problem, x, right) < 1e-12);
  CHECK((x - expected).norm() <= 1e-5 * expected.norm());
  CHECK((problem.dense * x - right).norm() <= 1e-9 * problem.dense.norm() * x.norm());
}

TEST_CASE("The same factors solve the transposed equations", "[solve][analytic]") {
  const auto seed = GENERATE(range(0U, 20U));
  const auto size = static_cast<Index>(1 + 7 * (seed % 10));
  Problem problem(size, seed);
  problem.fill_like_a_stage();
  const Vector right = problem.random_vector();
  std::vector<double> factors = problem.values;
  REQUIRE(problem.elimination.factor(factors));
  Vector x = right;
  Vector scratch(x.size());
  problem.elimination.solve_transposed(factors, span(x), span(scratch));
  CAPTURE(seed, size);
  CHECK(backward_error(problem, x, right, Side::transposed) < 1e-12);
  Vector pivoted = right;
  REQUIRE(problem.elimination.solve_with_pivoting(problem.values, span(pivoted), Side::transposed));
  const Vector expected = problem.dense.transpose().fullPivLu().solve(right);
  CHECK((x - expected).norm() <= 1e-5 * expected.norm());
  CHECK((pivoted - expected).norm() <= 1e-5 * expected.norm());
}

TEST_CASE("A matrix of tame numbers is solved to rounding", "[solve][analytic]") {
  Problem problem(40, 7);
  problem.fill_at_random();
  for (Index k = 0; k < 40; ++k) problem.put(k, k, 20.0);
  const Vector expected = problem.random_vector();
  const Vector right = problem.dense * expected;
  CHECK((solve_by_factors(problem, right) - expected).norm() <= 1e-13 * expected.norm());
}

TEST_CASE("The determinant's sign is the one that dense pivoting finds", "[solve][analytic]") {
  const auto seed = GENERATE(range(0U, 60U));
  const auto size = static_cast<Index>(1 + seed % 12);
  Problem problem(size, seed);
  problem.fill_at_random();
  const double determinant = problem.dense.fullPivLu().determinant();
  const int expected = determinant < 0.0 ? -1 : 1;
  CAPTURE(seed, size, determinant);
  CHECK(problem.elimination.determinant_sign_with_pivoting(problem.values) == expected);
  std::vector<double> factors = problem.values;
  if (problem.elimination.factor(factors)) {
    CHECK(problem.elimination.determinant_sign(factors) == expected);
  }
}

TEST_CASE("Zeros on the diagonal stop the fixed order and not the pivoting one",
          "[solve][analytic]") {
  // x1 = b0, x0 = b1: a permutation, which has no diagonal pivot at all.
  const std::vector<std::pair<Index, Index>> entries{{0, 1}};
  const Elimination elimination(2, entries);
  std::vector<double> values(static_cast<std::size_t>(elimination.slots()), 0.0);
  values[static_cast<std::size_t>(elimination.slot(0, 1))] = 1.0;
  values[static_cast<std::size_t>(elimination.slot(1, 0))] = 1.0;
  std::vector<double> factors = values;
  CHECK_FALSE(elimination.factor(factors));
  std::vector<double> b{3.0, 5.0};
  REQUIRE(elimination.solve_with_pivoting(values, b));
  CHECK(b == std::vector<double>{5.0, 3.0});
  CHECK(elimination.determinant_sign_with_pivoting(values) == -1);
}

TEST_CASE("Pivoting solves random matrices that the fixed order gets wrong", "[solve][analytic]") {
  const auto seed = GENERATE(range(0U, 20U));
  Problem problem(24, seed);
  problem.fill_at_random();
  // Saddle points, as a current that answers to another one's voltage makes them.
  for (Index k = 0; k < 24; k += 2) problem.put(k, k, -problem.dense(k, k));
  const Vector right = problem.random_vector();
  const auto lu = problem.dense.fullPivLu();
  REQUIRE(lu.isInvertible());
  Vector x = right;
  REQUIRE(problem.elimination.solve_with_pivoting(problem.values, span(x)));
  const Vector expected = lu.solve(right);
  CHECK((x - expected).norm() <= 1e-10 * (1.0 + expected.norm()));
  CHECK(backward_error(problem, x, right) < 1e-12);
}

TEST_CASE("A singular matrix has no solution by either way and no sign", "[solve][analytic]") {
  // Two points that only each other hold: rows that sum to zero.
  const std::vector<std::pair<Index, Index>> entries{{0, 1}};
  const Elimination elimination(2, entries);
  std::vector<double> values(static_cast<std::size_t>(elimination.slots()), 0.0);
  for (Index i = 0; i < 2; ++i) {
    for (Index j = 0; j < 2; ++j) {
      values[static_cast<std::size_t>(elimination.slot(i, j))] = i == j ? 1.0 : -1.0;
    }
  }
  std::vector<double> factors = values;
  CHECK_FALSE(elimination.factor(factors));
  std::vector<double> b{1.0, 0.0};
  CHECK_FALSE(elimination.solve_with_pivoting(values, b));
  CHECK(elimination.determinant_sign_with_pivoting(values) == 0);
}

TEST_CASE("The backward error is nothing for an exact solution and known for a wrong one",
          "[solve][analytic]") {
  Problem problem(3, 1);
  problem.put(0, 0, 2.0);
  problem.put(1, 1, 4.0);
  problem.put(2, 2, 8.0);
  const Vector right = Vector::Constant(3, 8.0);
  Vector x(3);
  x << 4.0, 2.0, 1.0;
  CHECK(backward_error(problem, x, right) == 0.0);
  // Row 1 then leaves 8 - 12 of |8| + |12| = 20.
  x[1] = 3.0;
  CHECK(backward_error(problem, x, right) == 0.2);
  x[1] = std::nan("");
  CHECK(std::isnan(backward_error(problem, x, right)));
}

TEST_CASE("Eliminating a ladder fills nothing in", "[solve][analytic]") {
  // A chain of n points needs n - 1 multiply-adds in its best order.
  std::vector<std::pair<Index, Index>> entries;
  for (Index k = 0; k + 1 < 50; ++k) entries.emplace_back(k, k + 1);
  const Elimination elimination(50, entries);
  CHECK(elimination.operations() == 49);
  CHECK(elimination.slots() == 50 + 2 * 49 + 1);
}

TEST_CASE("Nothing to solve is solved", "[solve][analytic]") {
  const Elimination elimination(0, {});
  std::vector<double> values(1, 0.0);
  CHECK(elimination.factor(values));
  CHECK(elimination.determinant_sign(values) == 1);
}

}  // namespace idlepoint::solve
