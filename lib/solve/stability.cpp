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

/// From every point to ground.
void add_shunt(const System& system, double shunt_s, Work& work) {
  for (Index k = 0; k < system.unknowns; ++k) {
    work.slopes_s[at(system.elimination.diagonal_slot(k))] += shunt_s;
  }
}

/// The least shunt that turns the determinant's sign, a shade above it: there the slopes are
/// singular, and what they do not resist is the slowest growing mode.
double turning_shunt(const System& system, const std::vector<double>& slopes_s, Work& work) {
  constexpr int halvings = 12;
  const auto sign_at = [&](double shunt_s) {
    work.slopes_s = slopes_s;
    add_shunt(system, shunt_s, work);
    return determinant_sign(system, work);
  };
  const int sign = sign_at(0.0);
  double above_s = 1e-9;
  while (above_s < 1e3 && sign_at(above_s) == sign) above_s *= 10.0;
  double below_s = above_s / 10.0;
  for (int k = 0; k < halvings; ++k) {
    const double middle_s = std::sqrt(below_s * above_s);
    (sign_at(middle_s) == sign ? below_s : above_s) = middle_s;
  }
  return above_s;
}

}  // namespace

bool is_stable(const System& system, const Numbers& numbers, const State& state, Work& work) {
  const int sign = determinant_sign(system, work);
  // A passive network at rest has a positive determinant; only an odd sign is worth the comparison.
  if (sign > 0 || (state.bipolar_v.empty() && state.fet_v.empty())) return true;
  return sign == sign_at_rest(system, numbers, work);
}

GrowingMode growing_mode(const System& system, Work& work) {
  constexpr int iterations = 4;
  constexpr double push_v = 0.1;
  const std::vector<double> slopes_s = work.slopes_s;
  GrowingMode mode{std::vector<double>(at(system.unknowns) + 1),
                   turning_shunt(system, slopes_s, work)};
  // Uneven, so that it has a share of every mode of a symmetrical stage.
  for (std::size_t k = 0; k < mode.direction_v.size(); ++k) {
    mode.direction_v[k] = push_v * std::cos(static_cast<double>(k * k + 1));
  }
  work.slopes_s = slopes_s;
  add_shunt(system, mode.rate_s, work);
  factor_slopes(system, work);
  for (int k = 0; k < iterations; ++k) {
    if (!solve_factored(system, work, mode.direction_v)) break;
    double largest = 0.0;
    for (const double v : mode.direction_v) largest = std::max(largest, std::abs(v));
    for (double& v : mode.direction_v) v *= push_v / largest;
  }
  work.slopes_s = slopes_s;
  return mode;
}

}  // namespace idlepoint::solve
