// A block of samples run through one width of lanes: what every kernel source instantiates.
//
// Included only by solve/lane_kernel_*.cpp, each compiled for one instruction set.
#pragma once

#include <array>
#include <vector>

#include "solve/draws.hpp"
#include "solve/lane_kernels.hpp"
#include "solve/lane_solver.hpp"

namespace idlepoint::solve {

/// Lanes from and to plain doubles.
template <class Real>
[[nodiscard]] Real lanes_from(const double* from) noexcept {
  if constexpr (lanes_of<Real> == 1) {
    return *from;
  } else {
    return Real::load(from);
  }
}
template <class Real>
void lanes_to(const Real& lanes, double* to) noexcept {
  if constexpr (lanes_of<Real> == 1) {
    *to = lanes;
  } else {
    lanes.store(to);
  }
}

/// The draws of the samples in `sample`, one a lane.
template <class Real>
void draw_lanes(std::uint64_t seed,
                const std::array<std::uint64_t, lanes_of<Real>>& sample,
                std::span<Real> u) noexcept {
  constexpr std::size_t lanes = lanes_of<Real>;
  std::array<double, lanes> even;
  std::array<double, lanes> odd;
  for (std::size_t k = 0; k < u.size(); k += 2) {
    for (std::size_t lane = 0; lane < lanes; ++lane) {
      const DrawPair pair = draw_pair(seed, sample[lane], static_cast<std::uint32_t>(k / 2));
      even[lane] = pair.u[0];
      odd[lane] = pair.u[1];
    }
    u[k] = lanes_from<Real>(even.data());
    if (k + 1 < u.size()) u[k + 1] = lanes_from<Real>(odd.data());
  }
}

/// One block: every sample from the nominal state, then the lost ones in strides.
template <class Real>
class BlockRun {
 public:
  BlockRun(const LanePlan& plan, const LaneBlock& block)
      : plan_(plan),
        block_(block),
        columns_(plan.probes.size() + plan.travels.size()),
        solver_(plan),
        u_(plan.uncertainty.draws.size()),
        scratch_(u_.size()) {}

  void run() noexcept {
    for (std::size_t first = 0; first < block_.fates.size(); first += lanes) {
      const std::size_t used = std::min(lanes, block_.fates.size() - first);
      for (std::size_t lane = 0; lane < lanes; ++lane) place_[lane] = first + lane;
      solve(used, Way::at_once);
    }
    solve_lost(Way::gradually);
    if (!plan_.heated.empty()) solve_lost(Way::by_heating);
  }

 private:
  static constexpr std::size_t lanes = lanes_of<Real>;

  enum class Way { at_once, gradually, by_heating };

  void solve_lost(Way way) noexcept {
    std::size_t used = 0;
    for (std::size_t place = 0; place < block_.fates.size(); ++place) {
      if (block_.fates[place] != Fate::failed) continue;
      place_[used++] = place;
      if (used < lanes) continue;
      solve(used, way);
      used = 0;
    }
    if (used > 0) solve(used, way);
  }

  /// Lanes beyond `used` repeat some sample and are not looked at.
  void solve(std::size_t used, Way way) noexcept {
    for (std::size_t lane = 0; lane < lanes; ++lane) sample_[lane] = block_.first + place_[lane];
    draw_lanes<Real>(block_.seed, sample_, u_);
    if (way == Way::at_once) solver_.solve(u_);
    if (way == Way::gradually) solver_.solve_gradually(u_, scratch_);
    if (way == Way::by_heating) solver_.solve_by_heating(u_);
    lanes_to(solver_.fate(), numbers_.data());
    for (std::size_t lane = 0; lane < used; ++lane) {
      block_.fates[place_[lane]] = static_cast<Fate>(static_cast<int>(numbers_[lane]));
    }
    for (std::size_t k = 0; k < columns_; ++k) {
      lanes_to(k < plan_.probes.size() ? solver_.read(plan_.probes[k])
                                       : solver_.travel(k - plan_.probes.size()),
               numbers_.data());
      for (std::size_t lane = 0; lane < used; ++lane) {
        block_.values[place_[lane] * columns_ + k] = numbers_[lane];
      }
    }
  }

  const LanePlan& plan_;
  const LaneBlock& block_;
  std::size_t columns_;
  LaneSolver<Real> solver_;
  std::vector<Real> u_;
  std::vector<Real> scratch_;
  std::array<std::size_t, lanes> place_{};
  std::array<std::uint64_t, lanes> sample_{};
  std::array<double, lanes> numbers_{};
};

template <class Real>
void run_block(const LanePlan& plan, const LaneBlock& block) {
  BlockRun<Real>(plan, block).run();
}

}  // namespace idlepoint::solve
