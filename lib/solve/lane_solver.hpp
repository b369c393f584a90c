// Newton's method on as many variants as a Real has lanes, side by side.
//
// The same laws, limits and tests as solve/newton, on the plan's one matrix; each lane decides for
// itself when it has settled and is frozen there, so that its bits depend on its own draws alone. A
// lane that does not settle, leaves a law's range, grows hotter than its parts may, or lands on
// another branch (the sign of its determinant tells) is handed back. Nothing allocates after
// construction.
// Compiled once an instruction set; nothing here may be called across those sources.
#pragma once

#include <algorithm>
#include <span>
#include <vector>

#include "devices/widened.hpp"
#include "solve/lane_assembly.hpp"

namespace idlepoint::solve {

/// What became of a lane; as doubles, so that lanes carry them. Values of `Fate`.
inline constexpr double lane_settled = 0.0;
inline constexpr double lane_failed = 1.0;
inline constexpr double lane_out_of_reach = 2.0;  ///< A travel stays at an end of its track.
inline constexpr double lane_too_hot = 3.0;       ///< A rest, above a maximum temperature.

template <class Real>
class LaneSolver {
 public:
  explicit LaneSolver(const LanePlan& plan)
      : plan_(plan),
        steps_(plan.elimination.steps()),
        assembly_(plan),
        step_(rows() + 1),
        by_row_(rows() + 1),
        factors_(static_cast<std::size_t>(plan.elimination.slots())) {}

  /// Solves the variant whose draws stand at `u`, [draws], from the nominal state.
  void solve(std::span<const Real> u) noexcept {
    assembly_.load(u);
    assembly_.stand_at_nominal();
    iterate(25);
  }

  /// As `solve`, in small strides from the nominal values: slower, for those that it lost.
  void solve_gradually(std::span<const Real> u, std::span<Real> scratch) noexcept {
    assembly_.stand_at_nominal();
    for (int stride = 1; stride <= strides; ++stride) {
      const double share = static_cast<double>(stride) / strides;
      for (std::size_t k = 0; k < u.size(); ++k) scratch[k] = share * u[k];
      assembly_.load(scratch);
      iterate(stride == strides ? 25 : 10);
    }
  }

  /// As `solve`, from the cold state on, the thermal resistances raised from 0: as the scalar
  /// solver finds a warm state.
  void solve_by_heating(std::span<const Real> u) noexcept {
    assembly_.stand_at_nominal();
    for (int stride = 0; stride <= strides; ++stride) {
      assembly_.set_heat_scale(static_cast<double>(stride) / strides);
      assembly_.load(u);
      iterate(stride == strides ? 25 : 10);
    }
  }

  /// `lane_settled`, `lane_failed` or `lane_out_of_reach`.
  [[nodiscard]] const Real& fate() const noexcept { return fate_; }
  /// Sign of the last determinant, the travels fixed.
  [[nodiscard]] const Real& sign() const noexcept { return sign_; }
  /// Newton steps of the slowest lane.
  [[nodiscard]] int steps() const noexcept { return taken_; }
  [[nodiscard]] Real read(const LaneProbe& probe) const noexcept { return assembly_.read(probe); }
  /// Of the k-th wanted trimmer.
  [[nodiscard]] const Real& travel(std::size_t k) const noexcept {
    return assembly_.x[static_cast<std::size_t>(plan_.travels[k].row)];
  }

 private:
  using Mask = devices::Mask<Real>;
  static constexpr int strides = 8;

  void iterate(int most_steps) noexcept {
    Mask settled(false);
    Mask was_small(false);
    Mask out_of_reach(false);
    for (taken_ = 0;; ++taken_) {
      const Mask arrived = assembly_.assemble();
      const Mask rests = arrived && assembly_.is_balanced() && was_small;
      // A travel held at its end by a state at rest: let go, or out of reach for good.
      const Mask lets_go = rests && !settled && !out_of_reach && assembly_.wants_back();
      const Mask is_held = assembly_.is_held();
      settled = settled || (rests && !is_held);
      out_of_reach = out_of_reach || (rests && is_held && !lets_go);
      if (devices::all(settled || out_of_reach) || taken_ == most_steps) break;
      assembly_.let_go(lets_go);
      factor();
      substitute();
      was_small = move(settled || out_of_reach);
    }
    judge(settled, out_of_reach);
  }
  [[nodiscard]] std::size_t rows() const noexcept { return static_cast<std::size_t>(plan_.rows); }

  void factor() noexcept {
    std::copy(assembly_.slopes.begin(), assembly_.slopes.end(), factors_.begin());
    sign_ = Real(1.0);
    const Index* target = steps_.targets.data();
    for (std::size_t k = 0; k < rows(); ++k) {
      const Real pivot = factors_[at(steps_.diagonal[k])];
      const Real inverse = 1.0 / pivot;
      if (k < rows() - plan_.travels.size()) {
        sign_ = devices::select(pivot < 0.0, -sign_, sign_);
      }
      factors_[at(steps_.diagonal[k])] = inverse;
      const std::size_t first = at(steps_.begin[k]);
      const std::size_t last = at(steps_.begin[k + 1]);
      for (std::size_t i = first; i < last; ++i) {
        const Real multiplier = factors_[at(steps_.lower[i])] * inverse;
        factors_[at(steps_.lower[i])] = multiplier;
        for (std::size_t j = first; j < last; ++j) {
          Real& entry = factors_[at(*target++)];
          entry = entry - multiplier * factors_[at(steps_.upper[j])];
        }
      }
    }
  }

  /// step = -slopes^-1 balance, in elimination order within `step_`.
  void substitute() noexcept {
    for (std::size_t k = 0; k < rows(); ++k) {
      step_[k] = -assembly_.balance[at(steps_.unknown[k])];
    }
    for (std::size_t k = 0; k < rows(); ++k) {
      const Real known = step_[k];
      for (std::size_t i = at(steps_.begin[k]); i < at(steps_.begin[k + 1]); ++i) {
        Real& later = step_[at(steps_.later[i])];
        later = later - factors_[at(steps_.lower[i])] * known;
      }
    }
    for (std::size_t k = rows(); k-- > 0;) {
      Real sum = step_[k];
      for (std::size_t i = at(steps_.begin[k]); i < at(steps_.begin[k + 1]); ++i) {
        sum = sum - factors_[at(steps_.upper[i])] * step_[at(steps_.later[i])];
      }
      step_[k] = sum * factors_[at(steps_.diagonal[k])];
    }
  }

  /// Takes the step where a lane is not done; tells which lanes moved by next to nothing.
  [[nodiscard]] Mask move(const Mask& done) noexcept {
    const Real share = share_of_step();
    Mask small(true);
    for (std::size_t k = 0; k < rows(); ++k) {
      Real& x = assembly_.x[static_cast<std::size_t>(steps_.unknown[k])];
      small = small && devices::magnitude(step_[k]) <= 1e-7 + 1e-9 * devices::magnitude(x);
      x = devices::select(done, x, x + share * step_[k]);
    }
    // Not in the condition itself: plain truths would leave it out where they can.
    const Mask holds_more = assembly_.hold_travels(done);
    return small && !holds_more;
  }

  /// A travel goes by a fifth of its track at most, a junction's temperature by 15 K, and
  /// everything else in proportion.
  [[nodiscard]] Real share_of_step() noexcept {
    constexpr double farthest_travel = 0.2;
    constexpr double farthest_k = 15.0;
    Real share(1.0);
    const auto bound = [&](const Real& step, double farthest) {
      const Real far = devices::magnitude(step);
      share = devices::select(share * far > farthest, farthest / far, share);
    };
    for (std::size_t k = 0; k < rows(); ++k) by_row_[at(steps_.unknown[k])] = step_[k];
    for (const LaneTravel& travel : plan_.travels) bound(by_row_[at(travel.row)], farthest_travel);
    for (const LaneHeated& lane : plan_.heated) {
      bound(assembly_.rise_k(lane, by_row_), farthest_k);
    }
    return share;
  }

  void judge(const Mask& settled, const Mask& out_of_reach) noexcept {
    const Mask is_other_branch = plan_.determinant_is_negative ? sign_ > 0.0 : sign_ < 0.0;
    const Mask sound = settled && assembly_.is_sound() && !is_other_branch;
    const Real hot = devices::select(assembly_.is_cool(), Real(lane_settled), Real(lane_too_hot));
    fate_ = devices::select(sound, hot, Real(lane_failed));
    fate_ = devices::select(out_of_reach, Real(lane_out_of_reach), fate_);
  }

  static std::size_t at(Index index) noexcept { return static_cast<std::size_t>(index); }

  const LanePlan& plan_;
  Elimination::Steps steps_;
  LaneAssembly<Real> assembly_;
  std::vector<Real> step_;     ///< [rows + 1] in elimination order.
  std::vector<Real> by_row_;   ///< [rows + 1]
  std::vector<Real> factors_;  ///< [slots] pivots inverted.
  Real sign_ = Real(1.0);
  int taken_ = 0;
  Real fate_ = Real(lane_failed);
};

}  // namespace idlepoint::solve
