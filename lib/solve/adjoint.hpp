// The weight of every terminal current in one reading or travel, all voltages, temperatures and
// travels following.
//
// With balances F = 0, heat balances H = 0 and wanted readings R = target, the quantity Q has the
// multipliers of L = Q - y F - h H - r R whose gradient by every unknown is zero; a current slipped
// in at a terminal then moves Q by the terminal's weight in L. Used by solve/sensitivity.
#pragma once

#include <vector>

#include "solve/bordered_newton.hpp"

namespace idlepoint::solve {

/// What one quantity depends on directly, and which border follows it.
struct Quantity {
  const ProbeGradient* reading = nullptr;  ///< None: the travel of `travel`.
  std::size_t travel = 0;                  ///< Among the wanted.
  std::size_t columns = 0;  ///< Leading rows of the border that follow: heated parts, or all.
};

class Adjoint {
 public:
  /// `border` belongs to the settled state that the solver's work holds. Requires the quantity to
  /// have a solution (`is_sound`).
  Adjoint(StageSolver& solver,
          BorderedNewton& newton,
          const Border& border,
          const Quantity& quantity);

  /// False where the equations are singular; nothing else may be asked then.
  [[nodiscard]] bool is_sound() const noexcept { return is_sound_; }

  /// dQ a unit of what moves the currents of `slopes`.
  [[nodiscard]] double sum(const std::vector<TerminalSlope>& slopes) const;

  /// [points] dQ per volt lifted onto a point against its group.
  [[nodiscard]] std::vector<double> by_point_v() const;

  /// dQ per kelvin slipped onto a heated part, and per kelvin of every sink and ambient reading.
  [[nodiscard]] double by_heat(std::size_t heated) const { return heat_[heated]; }

  /// The factor of a reading in L: 1 for Q itself, -r for wanted ones. Calls `visit(reading,
  /// factor)`; `reading` is null for the quantity, which may be a travel.
  template <class Visit>
  void for_each_reading(Visit visit) const {
    visit(quantity_.reading, 1.0);
    for (std::size_t k = 0; k < wanted_.size(); ++k) visit(&border_.readings[k], -wanted_[k]);
  }

 private:
  [[nodiscard]] bool solve_multipliers();
  void add(const ProbeGradient& reading, double factor);
  [[nodiscard]] double weight(const Owner& owner, Index point) const;

  StageSolver& solver_;
  BorderedNewton& newton_;
  const Border& border_;
  Quantity quantity_;
  std::vector<double> heat_;    ///< [heated parts] multipliers h.
  std::vector<double> wanted_;  ///< [wanted] multipliers r; empty where travels are fixed.
  TerminalWeights by_current_;
  std::vector<double> by_power_;    ///< [heated parts]
  std::vector<double> by_point_v_;  ///< [points] at fixed currents.
  bool is_sound_ = false;
};

}  // namespace idlepoint::solve
