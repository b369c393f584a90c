#include "solve/stability.hpp"

#include <algorithm>
#include <cmath>

#include "solve/newton.hpp"

namespace idlepoint::solve {
namespace {

int determinant_sign(const System& system, Work& work) {
  factor_slopes(system, work);
  if (work.factors_are_finite) {
    return system.elimination.determinant_sign(work.factors);
  }
  return system.elimination.determinant_sign_with_pivoting(work.slopes_s);
}

int sign_at_rest(const System& system, const Numbers& numbers, Work& work) {
  Work rest = work;
  State state = cold_start(system, numbers);
  Drive drive;
  drive.sources = 0.0;
  assemble(system, numbers, drive, Limiting::off, state, rest);
  return determinant_sign(system, rest);
}

}  // namespace

bool is_stable(const System& system, const Numbers& numbers, const State& state, Work& work) {
  const int sign = determinant_sign(system, work);
  // A passive network at rest has a positive determinant; only an odd sign is worth the comparison.
  if (sign > 0 || state.bipolar_v.empty()) return true;
  return sign == sign_at_rest(system, numbers, work);
}

GrowingMode growing_mode(const System& system, Work& work) {
  constexpr int iterations = 12;
  constexpr double push_v = 0.1;
  const auto size = static_cast<std::size_t>(system.unknowns);
  GrowingMode mode{std::vector<double>(size + 1, push_v), 0.0};
  factor_slopes(system, work);
  for (int k = 0; k < iterations; ++k) {
    if (!solve_factored(system, work, mode.direction_v)) break;
    double largest = 0.0;
    for (const double v : mode.direction_v) largest = std::max(largest, std::abs(v));
    mode.rate_s = push_v / largest;
    for (double& v : mode.direction_v) v *= push_v / largest;
  }
  return mode;
}

}  // namespace idlepoint::solve
