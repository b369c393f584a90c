#include "solve/newton.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace idlepoint::solve {
namespace {

constexpr double rounding = 8.0 * std::numeric_limits<double>::epsilon();

/// Below what can be measured by five decades, so that it never decides an answer.
constexpr double smallest_balance_a = 1e-13;

double largest_voltage(const Work& work) {
  double largest = 0.0;
  for (const double v : work.point_v) largest = std::max(largest, std::abs(v));
  return largest;
}

/// An absolute tolerance is below rounding where amperes flow, so the slopes' share is added.
double tolerance_a(const System& system, const Work& work, Index k, double largest_v) {
  const double slope = work.slopes_s[at(system.elimination.diagonal_slot(k))];
  return smallest_balance_a + rounding * std::abs(slope) * largest_v;
}

/// So small that the next error, which goes with the square, is below rounding.
bool is_small_step(const System& system, const Work& work, const State& state) {
  for (Index k = 0; k < system.unknowns; ++k) {
    if (std::abs(work.step[at(k)]) > 1e-7 + 1e-9 * std::abs(state.x[at(k)])) return false;
  }
  return true;
}

/// Row by row, what is left over against what was added up [OettliPrager1964].
bool has_small_backward_error(const System& system,
                              Work& work,
                              std::span<const double> x,
                              std::span<const double> b,
                              Side side) {
  constexpr double largest_backward_error = 1e-8;
  return system.elimination.backward_error(work.slopes_s, x, b, work.product, work.scratch, side) <=
         largest_backward_error;
}

/// A passive part takes no point beyond the sources [Willson1975], so a step ends there. The margin
/// is for rounding; the free steps, for a law that is not quite passive.
void move_within_sources(const System& system, bool is_bounded, State& state, const Work& work) {
  constexpr double margin_v = 0.3;
  const double lowest_v = work.lowest_v - margin_v;
  const double highest_v = work.highest_v + margin_v;
  for (Index k = 0; k < system.unknowns; ++k) {
    const double v = state.x[at(k)] + work.step[at(k)];
    state.x[at(k)] = is_bounded ? std::clamp(v, lowest_v, highest_v) : v;
  }
}

bool take_step(const System& system, bool is_bounded, State& state, Work& work) {
  for (Index k = 0; k < system.unknowns; ++k) work.step[at(k)] = -work.balance_a[at(k)];
  factor_slopes(system, work);
  if (!solve_factored(system, work, work.step)) return false;
  move_within_sources(system, is_bounded, state, work);
  return true;
}

}  // namespace

void factor_slopes(const System& system, Work& work) {
  std::copy(work.slopes_s.begin(), work.slopes_s.end(), work.factors.begin());
  work.factors_are_finite = system.elimination.factor(work.factors);
}

bool solve_factored(const System& system, Work& work, std::span<double> b, Side side) {
  std::copy(b.begin(), b.end(), work.right.begin());
  if (work.factors_are_finite) {
    if (side == Side::plain) {
      system.elimination.solve(work.factors, b, work.scratch);
    } else {
      system.elimination.solve_transposed(work.factors, b, work.scratch);
    }
    if (has_small_backward_error(system, work, b, work.right, side)) return true;
  }
  std::copy(work.right.begin(), work.right.end(), b.begin());
  return system.elimination.solve_with_pivoting(work.slopes_s, b, side);
}

bool is_balanced(const System& system, const Work& work) {
  const double largest_v = largest_voltage(work);
  for (Index k = 0; k < system.unknowns; ++k) {
    // Negated, so that a NaN is not balanced.
    if (!(std::abs(work.balance_a[at(k)]) <= tolerance_a(system, work, k, largest_v))) return false;
  }
  return true;
}

Index worst_balance(const System& system, const Work& work) {
  const double largest_v = largest_voltage(work);
  Index worst = 0;
  double worst_ratio = -1.0;
  for (Index k = 0; k < system.unknowns; ++k) {
    const double ratio = std::abs(work.balance_a[at(k)]) / tolerance_a(system, work, k, largest_v);
    if (ratio > worst_ratio) {
      worst_ratio = ratio;
      worst = k;
    }
  }
  return worst;
}

NewtonResult iterate(const System& system,
                     const Numbers& numbers,
                     const Drive& drive,
                     State& state,
                     Work& work,
                     const NewtonOptions& options) {
  constexpr int bounded_steps = 30;
  NewtonResult result;
  bool was_balanced = false;
  bool was_small_step = false;
  while (true) {
    const bool arrived = assemble(system, numbers, drive, Limiting::on, state, work);
    const bool balanced = arrived && is_balanced(system, work);
    result.settled = balanced && (was_balanced || was_small_step);
    if (result.settled || result.steps == options.most_steps) return result;
    result.singular = !take_step(system, result.steps < bounded_steps, state, work);
    if (result.singular) return result;
    was_balanced = balanced;
    was_small_step = is_small_step(system, work, state);
    ++result.steps;
  }
}

}  // namespace idlepoint::solve
