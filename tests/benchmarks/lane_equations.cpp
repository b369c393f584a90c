#include "benchmarks/lane_equations.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace idlepoint::benchmarks {
namespace {

using solve::HeatSlots;
using solve::Index;
using solve::LanePlan;

std::size_t at(Index index) { return static_cast<std::size_t>(index); }

using Used = std::vector<bool>;  ///< [slots] that something is written to.

void mark(const std::vector<solve::TwoPoleStamp>& stamps, Used& used) {
  for (const auto& stamp : stamps) {
    for (const Index slot : {stamp.aa, stamp.ab, stamp.ba, stamp.bb}) used[at(slot)] = true;
  }
}

void mark(const std::vector<solve::ThreePoleStamp>& stamps, Used& used) {
  for (const auto& stamp : stamps) {
    for (const Index slot : stamp.slots) used[at(slot)] = true;
  }
}

void mark(const std::vector<std::optional<HeatSlots>>& heat, Used& used) {
  for (const auto& slots : heat) {
    if (!slots) continue;
    for (const auto& three : {slots->row_by_power, slots->row_by_sink, slots->power_by_row}) {
      for (const Index slot : three) used[at(slot)] = true;
    }
  }
}

Used used_slots(const LanePlan& plan) {
  Used used(at(plan.elimination.slots()), false);
  for (const auto* stamps : {&plan.conductors, &plan.diodes, &plan.lamps, &plan.feeds}) {
    mark(*stamps, used);
  }
  for (const auto* stamps : {&plan.bipolars, &plan.fets}) mark(*stamps, used);
  for (const auto* heat :
       {&plan.conductor_heat, &plan.diode_heat, &plan.bipolar_heat, &plan.fet_heat}) {
    mark(*heat, used);
  }
  for (const auto& lane : plan.heated) used[at(lane.by_sink)] = true;
  for (const auto& sink : plan.sinks) {
    for (const auto& [row, slot] : sink.parts) used[at(slot)] = true;
  }
  for (Index k = 0; k < plan.rows; ++k) used[at(plan.elimination.diagonal_slot(k))] = true;
  used[at(plan.elimination.spare_slot())] = false;
  return used;
}

}  // namespace

Pattern find_pattern(const LanePlan& plan) {
  const Used used = used_slots(plan);
  const auto steps = plan.elimination.steps();
  Entries entries;
  for (std::size_t k = 0; k < at(plan.rows); ++k) {
    const Index row = steps.unknown[k];
    entries.emplace(row, row, steps.diagonal[k]);
    for (std::size_t i = at(steps.begin[k]); i < at(steps.begin[k + 1]); ++i) {
      const Index other = steps.unknown[at(steps.later[i])];
      if (used[at(steps.upper[i])]) entries.emplace(other, row, steps.upper[i]);
      if (used[at(steps.lower[i])]) entries.emplace(row, other, steps.lower[i]);
    }
  }
  return compressed(entries, plan.rows);
}

void LaneEquations::evaluate(std::span<const double> x) {
  std::copy(x.begin(), x.end(), assembly_.x.begin());
  static_cast<void>(assembly_.assemble());
}

std::vector<double> LaneEquations::tolerances() const {
  constexpr double smallest_a = 1e-13;
  constexpr double rounding = 8.0 * std::numeric_limits<double>::epsilon();
  double largest_v = 0.0;
  for (Index k = 0; k < plan_.system.unknowns; ++k) {
    largest_v = std::max(largest_v, std::abs(assembly_.x[at(k)]));
  }
  std::vector<double> tolerances;
  for (Index k = 0; k < plan_.rows; ++k) {
    const double slope = assembly_.slopes[at(plan_.elimination.diagonal_slot(k))];
    tolerances.push_back(k < plan_.system.unknowns
                             ? smallest_a + rounding * std::abs(slope) * largest_v
                             : 1e-10 + 1e-10 * std::abs(assembly_.x[at(k)]));
  }
  return tolerances;
}

bool LaneEquations::balance_holds(std::span<const double> x) {
  evaluate(x);
  return assembly_.is_balanced() && assembly_.is_sound();
}

bool KluLaneNewton::take_step(bool& was_small) {
  constexpr double farthest_k = 15.0;
  for (std::size_t k = 0; k < at(plan_.rows); ++k) step_[k] = -assembly_.balance[k];
  if (!matrix_.solve(assembly_.slopes, step_)) return false;
  double share = 1.0;
  for (const solve::LaneHeated& lane : plan_.heated) {
    const double far_k = std::abs(assembly_.rise_k(lane, step_));
    if (share * far_k > farthest_k) share = farthest_k / far_k;
  }
  was_small = true;
  for (std::size_t k = 0; k < at(plan_.rows); ++k) {
    double& x = assembly_.x[k];
    was_small = was_small && std::abs(step_[k]) <= 1e-7 + 1e-9 * std::abs(x);
    x += share * step_[k];
  }
  return true;
}

bool KluLaneNewton::solve(std::span<const double> u) {
  constexpr int most_steps = 25;
  assembly_.load(u);
  assembly_.stand_at_nominal();
  bool was_small = false;
  for (steps_ = 0; steps_ <= most_steps; ++steps_) {
    const bool arrived = assembly_.assemble();
    if (arrived && was_small && assembly_.is_balanced()) return assembly_.is_sound();
    if (!take_step(was_small)) return false;
  }
  return false;
}

}  // namespace idlepoint::benchmarks
