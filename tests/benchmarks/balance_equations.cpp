#include "benchmarks/balance_equations.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "solve/balance_check.hpp"

namespace idlepoint::benchmarks {
namespace {

using solve::Index;

std::size_t at(Index index) { return static_cast<std::size_t>(index); }

void add(const solve::System& system, Index row, Index column, Index slot, Entries& entries) {
  if (row < system.unknowns && column < system.unknowns) entries.emplace(column, row, slot);
}

void add(const solve::System& system,
         const std::vector<solve::TwoPoleStamp>& stamps,
         Entries& entries) {
  for (const solve::TwoPoleStamp& stamp : stamps) {
    add(system, stamp.row_a, stamp.row_a, stamp.aa, entries);
    add(system, stamp.row_a, stamp.row_b, stamp.ab, entries);
    add(system, stamp.row_b, stamp.row_a, stamp.ba, entries);
    add(system, stamp.row_b, stamp.row_b, stamp.bb, entries);
  }
}

void add(const solve::System& system,
         const std::vector<solve::ThreePoleStamp>& stamps,
         Entries& entries) {
  for (const solve::ThreePoleStamp& stamp : stamps) {
    for (std::size_t i = 0; i < 9; ++i) {
      add(system, stamp.rows[i / 3], stamp.rows[i % 3], stamp.slots[i], entries);
    }
  }
}

}  // namespace

Pattern find_pattern(const solve::System& system) {
  Entries entries;
  for (const auto* stamps : {&system.conductors, &system.diodes, &system.lamps, &system.feeds}) {
    add(system, *stamps, entries);
  }
  add(system, system.bipolars, entries);
  add(system, system.fets, entries);
  for (Index k = 0; k < system.unknowns; ++k) {
    add(system, k, k, system.elimination.diagonal_slot(k), entries);
  }
  return compressed(entries, system.unknowns);
}

Pattern compressed(const Entries& entries, Index unknowns) {
  Pattern pattern;
  pattern.column_begin.assign(at(unknowns) + 1, 0);
  for (const auto& [column, row, slot] : entries) {
    ++pattern.column_begin[at(column) + 1];
    pattern.row.push_back(row);
    pattern.slot.push_back(slot);
  }
  for (Index k = 0; k < unknowns; ++k) {
    pattern.column_begin[at(k) + 1] += pattern.column_begin[at(k)];
  }
  return pattern;
}

BalanceEquations::BalanceEquations(const solve::System& system)
    : system_(system), pattern_(find_pattern(system)) {}

void BalanceEquations::take(const solve::Numbers& numbers) {
  numbers_ = &numbers;
  drive_ = {};
  solve::prepare(system_, numbers, work_);
  if (state_.x.empty()) state_ = solve::cold_start(system_, numbers);
}

void BalanceEquations::evaluate(std::span<const double> x) {
  std::copy(x.begin(), x.end(), state_.x.begin());
  solve::assemble(system_, *numbers_, drive_, solve::Limiting::off, state_, work_);
}

std::vector<double> BalanceEquations::tolerances_a() const {
  constexpr double smallest_a = 1e-13;
  constexpr double rounding = 8.0 * std::numeric_limits<double>::epsilon();
  double largest_v = 0.0;
  for (const double v : work_.point_v) largest_v = std::max(largest_v, std::abs(v));
  std::vector<double> tolerances;
  for (Index k = 0; k < system_.unknowns; ++k) {
    const double slope_s = work_.slopes_s[at(system_.elimination.diagonal_slot(k))];
    tolerances.push_back(smallest_a + rounding * std::abs(slope_s) * largest_v);
  }
  return tolerances;
}

bool BalanceEquations::balance_holds(std::span<const double> x) {
  std::copy(x.begin(), x.end(), state_.x.begin());
  return solve::check_balance(system_, *numbers_, state_, work_).holds;
}

}  // namespace idlepoint::benchmarks
