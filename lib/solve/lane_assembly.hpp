// The equations of several variants at one state each: as solve/assembly, a Real for a double.
//
// Beside the current balances: a row a heated part, its watts less what its poles take in; a row a
// sink, its rise less its resistance times the watts on it; a row a wanted trimmer, its reading
// less the target. Used by solve/lane_solver.
#pragma once

#include <algorithm>
#include <array>
#include <limits>
#include <span>
#include <vector>

#include "devices/widened.hpp"
#include "solve/assembly.hpp"
#include "solve/lane_limiting.hpp"
#include "solve/lane_numbers.hpp"

namespace idlepoint::solve {

template <class Real>
class LaneAssembly {
 public:
  using Mask = devices::Mask<Real>;

  explicit LaneAssembly(const LanePlan& plan)
      : x(at(plan.rows) + 1),
        balance(at(plan.rows) + 1),
        slopes(at(plan.elimination.slots())),
        plan_(plan),
        numbers_(plan),
        fixed_(slopes.size()),
        offset_v_(at(plan.system.wiring.points)),
        point_v_(at(plan.system.wiring.points)),
        temperature_k_(plan.heated.size()),
        power_w_(plan.heated.size()),
        conductance_s_(plan.conductors.size()),
        conductor_a_(plan.conductors.size()),
        two_poles_{std::vector<Two>(plan.diodes.size()),
                   std::vector<Two>(plan.lamps.size()),
                   std::vector<Two>(plan.feeds.size())},
        three_poles_{std::vector<Three>(plan.bipolars.size()),
                     std::vector<Three>(plan.fets.size())},
        diode_v_(plan.diodes.size()),
        feed_v_(plan.feeds.size()),
        bipolar_v_(plan.bipolars.size()),
        fet_v_(plan.fets.size()),
        held_(plan.travels.size()) {}

  /// Takes a variant, wherever the state stands.
  void load(std::span<const Real> u) noexcept;
  void stand_at_nominal() noexcept;
  /// Scales every thermal resistance, from the next `load` on: 0 is the cold state, 1 the stage.
  void set_heat_scale(double scale) noexcept { heat_scale_ = scale; }
  /// Off: every junction is evaluated where it is asked to be, for other solvers on these
  /// equations.
  void set_limiting(Limiting limiting) noexcept { limiting_ = limiting; }
  /// A part's rise above ambient where the rows stand at `at_rows`.
  [[nodiscard]] Real rise_k(const LaneHeated& lane, std::span<const Real> at_rows) const noexcept {
    return lane.coupling * at_rows[at(lane.sink_row)] + own_k_per_w(lane) * at_rows[at(lane.row)];
  }

  /// Fills balances and slopes at `x`; tells which lanes' junctions all stand where they were asked
  /// to.
  [[nodiscard]] Mask assemble() noexcept;

  /// Every row within rounding of zero.
  [[nodiscard]] Mask is_balanced() const noexcept;

  /// Inside every law.
  [[nodiscard]] Mask is_sound() const noexcept;
  /// No junction above its maximum temperature.
  [[nodiscard]] Mask is_cool() const noexcept;

  /// Travels that a step has taken past an end are held there, the reading left to itself; tells
  /// which lanes hold one more.
  [[nodiscard]] Mask hold_travels(const Mask& done) noexcept;
  /// Lanes that hold any travel.
  [[nodiscard]] Mask is_held() const noexcept;
  /// Lanes in which a held travel's reading calls it back onto its track.
  [[nodiscard]] Mask wants_back() const noexcept;
  void let_go(const Mask& lanes) noexcept;

  /// What a probe reads at the assembled state.
  [[nodiscard]] Real read(const LaneProbe& probe) const noexcept;

  std::vector<Real> x;        ///< [rows + 1]; the last stays 0.
  std::vector<Real> balance;  ///< [rows + 1]
  std::vector<Real> slopes;   ///< [slots]

 private:
  struct Two {
    Real a = Real(0.0);
    Real s = Real(0.0);
    Real a_per_k = Real(0.0);
  };
  struct Three {
    std::array<Real, 2> a{Real(0.0), Real(0.0)};  ///< Into the first two terminals.
    std::array<Real, 2> a_per_k{Real(0.0), Real(0.0)};
    Real s00 = Real(0.0), s01 = Real(0.0), s10 = Real(0.0), s11 = Real(0.0);
  };

  static std::size_t at(Index index) noexcept { return static_cast<std::size_t>(index); }
  void add(Index slot, const Real& value) noexcept { slopes[at(slot)] = slopes[at(slot)] + value; }
  void add_balance(Index row, const Real& value) noexcept {
    balance[at(row)] = balance[at(row)] + value;
  }
  [[nodiscard]] Real across(const TwoPoleStamp& stamp) const noexcept {
    return point_v_[at(stamp.a)] - point_v_[at(stamp.b)];
  }

  [[nodiscard]] double own_k_per_w(const LaneHeated& lane) const noexcept {
    return heat_scale_ * lane.own_k_per_w;
  }
  void fix_slopes() noexcept;
  void find_temperatures() noexcept;
  void find_points() noexcept;
  void assemble_conductors() noexcept;
  void assemble_moving_conductor(std::size_t k) noexcept;
  void assemble_diodes() noexcept;
  void assemble_lamps() noexcept;
  void assemble_feeds() noexcept;
  void warm_bipolar(std::size_t k) noexcept;
  const std::array<Real, 2>& move_bipolar(std::size_t k, const std::array<Real, 2>& asked) noexcept;
  void assemble_bipolars() noexcept;
  void assemble_fets() noexcept;
  void assemble_heat() noexcept;
  void assemble_travels() noexcept;
  void assemble_reading(const LaneTravel& travel) noexcept;
  void hold_row(std::size_t k) noexcept;
  void add_own_travel(const LaneTravel& reading,
                      const LaneTravel& moved,
                      const CurrentTerm& term) noexcept;
  void stamp(const TwoPoleStamp& stamp, const Two& two) noexcept;
  void stamp(const ThreePoleStamp& stamp, const Three& three) noexcept;
  void heat(const TwoPoleStamp& stamp, const Two& two, const HeatSlots& slots) noexcept;
  void heat(const ThreePoleStamp& stamp, const Three& three, const HeatSlots& slots) noexcept;
  [[nodiscard]] devices::BasicDiodeAt<Real> warm_diode(std::size_t k) const noexcept;

  /// A term's current, its slopes by the rows of its pole, and by its part's temperature.
  struct Terminal {
    Real a = Real(0.0);
    std::array<Real, 3> by_row{Real(0.0), Real(0.0), Real(0.0)};
    Real by_k = Real(0.0);
  };
  [[nodiscard]] Terminal terminal(const CurrentTerm& term) const noexcept;
  [[nodiscard]] Real sum(const CurrentSum& currents) const noexcept;

  const LanePlan& plan_;
  LaneNumbers<Real> numbers_;
  std::vector<Real> fixed_;     ///< [slots] of everything that does not move in a solve.
  std::vector<Real> offset_v_;  ///< [points]
  std::vector<Real> point_v_;   ///< [points]
  std::vector<Real> temperature_k_;
  std::vector<Real> power_w_;
  std::vector<Real> conductance_s_;
  std::vector<Real> conductor_a_;
  std::array<std::vector<Two>, 3> two_poles_;      ///< Diodes, lamps, feeds.
  std::array<std::vector<Three>, 2> three_poles_;  ///< Bipolars, FETs.
  std::vector<Real> diode_v_;                      ///< Where each junction was last evaluated.
  std::vector<Real> feed_v_;
  std::vector<std::array<Real, 2>> bipolar_v_;
  std::vector<std::array<Real, 2>> fet_v_;
  double heat_scale_ = 1.0;
  Limiting limiting_ = Limiting::on;
  std::vector<Real> held_;  ///< [travels] 1 where held at an end.
  Mask in_range_ = Mask(true);
  Mask arrived_ = Mask(true);

  /// Remembers where a junction is evaluated, and whether that is where it was asked to be.
  const Real& move_to(Real& remembered, const Real& limited, const Real& asked) noexcept {
    remembered = limiting_ == Limiting::on ? limited : asked;
    arrived_ = arrived_ && remembered == asked;
    return remembered;
  }
};

}  // namespace idlepoint::solve

#include "solve/lane_assembly_impl.hpp"  // IWYU pragma: keep
#include "solve/lane_poles_impl.hpp"     // IWYU pragma: keep
#include "solve/lane_travels_impl.hpp"   // IWYU pragma: keep
