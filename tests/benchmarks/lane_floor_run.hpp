// The body of benchmarks/lane_floor, for the sources that are compiled once an instruction set.
#pragma once

#include <algorithm>
#include <vector>

#include "benchmarks/lane_floor.hpp"
#include "devices/widened.hpp"
#include "solve/lane_assembly.hpp"

namespace idlepoint::benchmarks {

/// Laws and matrix of one nominal state.
template <class Real>
class FloorRun {
 public:
  explicit FloorRun(const solve::LanePlan& plan) : plan_(plan), steps_(plan.elimination.steps()) {
    std::vector<Real> u(plan.uncertainty.draws.size(), Real(0.0));
    solve::LaneNumbers<Real> numbers(plan);
    numbers.load(u);
    bipolars_ = numbers.bipolars;
    diodes_ = numbers.diodes;
    fets_ = numbers.fets;
    solve::LaneAssembly<Real> assembly(plan);
    assembly.load(u);
    assembly.stand_at_nominal();
    static_cast<void>(assembly.assemble());
    slopes_ = assembly.slopes;
    values_ = slopes_;
    step_ = assembly.balance;
  }

  /// One evaluation of every law, one elimination, one substitution.
  void step(Real& sum) noexcept {
    evaluate_laws(sum);
    eliminate();
    substitute();
    sum = sum + step_[0];
  }

 private:
  static std::size_t at(solve::Index index) noexcept { return static_cast<std::size_t>(index); }

  void evaluate_laws(Real& sum) const noexcept {
    const solve::State& start = plan_.start;
    for (std::size_t k = 0; k < bipolars_.size(); ++k) {
      const auto now = devices::law::evaluate_bipolar<Real>(
          bipolars_[k], Real(start.bipolar_v[k][0]), Real(start.bipolar_v[k][1]));
      sum = sum + now.collector_a + now.base_a + now.collector_by_ube_s + now.collector_by_ubc_s +
            now.base_by_ube_s + now.base_by_ubc_s;
    }
    for (std::size_t k = 0; k < diodes_.size(); ++k) {
      const auto now = devices::law::evaluate_diode<Real>(diodes_[k], Real(start.diode_v[k]));
      sum = sum + now.current_a + now.conductance_s;
    }
    for (std::size_t k = 0; k < fets_.size(); ++k) {
      const auto now =
          devices::law::evaluate_fet<Real>(fets_[k], Real(start.fet_v[k][0]), Real(10.0));
      sum = sum + now.drain_a + now.by_ugs_s + now.by_uds_s;
    }
  }

  void eliminate() noexcept {
    std::copy(slopes_.begin(), slopes_.end(), values_.begin());
    Real* values = values_.data();
    const solve::Index* target = steps_.targets.data();
    const solve::Index* lower = steps_.lower.data();
    const solve::Index* upper = steps_.upper.data();
    for (std::size_t k = 0; k < steps_.diagonal.size(); ++k) {
      const Real inverse = 1.0 / values[at(steps_.diagonal[k])];
      values[at(steps_.diagonal[k])] = inverse;
      const std::size_t first = at(steps_.begin[k]);
      const std::size_t last = at(steps_.begin[k + 1]);
      for (std::size_t i = first; i < last; ++i) {
        const Real multiplier = values[at(lower[i])] * inverse;
        values[at(lower[i])] = multiplier;
        for (std::size_t j = first; j < last; ++j) {
          Real& entry = values[at(*target++)];
          entry = entry - multiplier * values[at(upper[j])];
        }
      }
    }
  }

  void substitute() noexcept {
    Real* step = step_.data();
    const Real* values = values_.data();
    const std::size_t rows = steps_.diagonal.size();
    for (std::size_t k = 0; k < rows; ++k) {
      const Real known = step[k];
      for (std::size_t i = at(steps_.begin[k]); i < at(steps_.begin[k + 1]); ++i) {
        Real& later = step[at(steps_.later[i])];
        later = later - values[at(steps_.lower[i])] * known;
      }
    }
    for (std::size_t k = rows; k-- > 0;) {
      Real sum = step[k];
      for (std::size_t i = at(steps_.begin[k]); i < at(steps_.begin[k + 1]); ++i) {
        sum = sum - values[at(steps_.upper[i])] * step[at(steps_.later[i])];
      }
      step[k] = sum * values[at(steps_.diagonal[k])];
    }
  }

  const solve::LanePlan& plan_;
  solve::Elimination::Steps steps_;
  std::vector<devices::BasicBipolarAt<Real>> bipolars_;
  std::vector<devices::BasicDiodeAt<Real>> diodes_;
  std::vector<devices::BasicFetAt<Real>> fets_;
  std::vector<Real> slopes_;
  std::vector<Real> values_;
  std::vector<Real> step_;
};

template <class Real>
double run_floor(const solve::LanePlan& plan, std::size_t steps) {
  FloorRun<Real> run(plan);
  Real sum(0.0);
  for (std::size_t k = 0; k < steps; ++k) run.step(sum);
  return devices::all(sum == sum) ? 1.0 : 0.0;
}

}  // namespace idlepoint::benchmarks
