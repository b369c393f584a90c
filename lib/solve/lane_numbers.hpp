// One lane-wide set of values: the nominal numbers of a plan, moved by the draws.
//
// Written for any Real of devices/elementary.hpp, so that one lane and eight give the same bits.
// Used by solve/lane_solver.
#pragma once

#include <span>
#include <vector>

#include "devices/bipolar_law.hpp"
#include "devices/diode_law.hpp"
#include "devices/fet_law.hpp"
#include "devices/passive_law.hpp"
#include "devices/widened.hpp"
#include "solve/lane_plan.hpp"

namespace idlepoint::solve {

/// How many variants a Real holds.
template <class Real>
inline constexpr std::size_t lanes_of = Real::lanes;
template <>
inline constexpr std::size_t lanes_of<double> = 1;

template <class Real>
class LaneNumbers {
 public:
  explicit LaneNumbers(const LanePlan& plan)
      : plan_(plan),
        parameters_(plan.parameters.size()),
        ratios_(plan.targets.size()),
        conductance_s(plan.numbers.conductance_s.size()),
        emf_v(plan.numbers.emf_v.size()),
        track_ohm(plan.system.wiring.tracks.size()),
        diodes(plan.diodes.size()),
        bipolars(plan.bipolars.size()),
        fets(plan.fets.size()),
        bipolar_targets_(plan.bipolars.size()),
        diode_targets_(plan.diodes.size()),
        fet_targets_(plan.fets.size()) {
    for (std::size_t k = 0; k < plan.targets.size(); ++k) list_target(k);
  }

  /// Takes the variant whose draws stand at `u`, [draws], at the nominal temperatures.
  void load(std::span<const Real> u) noexcept {
    for (std::size_t k = 0; k < parameters_.size(); ++k) parameters_[k] = Real(plan_.parameters[k]);
    for (std::size_t k = 0; k < u.size(); ++k) {
      for (const circuit::Effect& effect : plan_.uncertainty.draws[k].effects) move(effect, u[k]);
    }
    for (std::size_t k = 0; k < plan_.targets.size(); ++k) find_ratio(k);
    load_passives();
    for (std::size_t k = 0; k < diodes.size(); ++k)
      diodes[k] = diode(k, plan_.numbers.diodes[k].at);
    for (std::size_t k = 0; k < bipolars.size(); ++k) {
      bipolars[k] = bipolar(k, plan_.numbers.bipolars[k].at);
    }
    for (std::size_t k = 0; k < fets.size(); ++k) fets[k] = fet(k, plan_.numbers.fets[k].at);
  }

  /// The moved law of one pole from its nominal numbers, plain or a lane's own.
  template <class From>
  [[nodiscard]] devices::BasicBipolarAt<Real> bipolar(std::size_t k, const From& nominal) const {
    devices::BasicBipolarAt<Real> at = devices::law::widened<Real>(nominal);
    for (const std::size_t t : bipolar_targets_[k]) scale(at, plan_.targets[t].what, ratios_[t]);
    return at;
  }
  template <class From>
  [[nodiscard]] devices::BasicDiodeAt<Real> diode(std::size_t k, const From& nominal) const {
    devices::BasicDiodeAt<Real> at = devices::law::widened<Real>(nominal);
    for (const std::size_t t : diode_targets_[k]) scale(at, plan_.targets[t].what, ratios_[t]);
    return at;
  }
  template <class From>
  [[nodiscard]] devices::BasicFetAt<Real> fet(std::size_t k, const From& nominal) const {
    devices::BasicFetAt<Real> at = devices::law::widened<Real>(nominal);
    for (const std::size_t t : fet_targets_[k]) scale(at, plan_.targets[t].what, ratios_[t]);
    return at;
  }

 private:
  void list_target(std::size_t k) {
    const LaneTarget& target = plan_.targets[k];
    switch (target.what) {
      case Scaled::conductance:
      case Scaled::track:
      case Scaled::emf:
        return;
      case Scaled::diode_saturation:
      case Scaled::diode_zener:
      case Scaled::diode_test_current:
        return diode_targets_[target.pole].push_back(k);
      case Scaled::threshold:
      case Scaled::current_factor:
      case Scaled::drain_slope:
        return fet_targets_[target.pole].push_back(k);
      default:
        return bipolar_targets_[target.pole].push_back(k);
    }
  }

  void move(const circuit::Effect& effect, const Real& u) noexcept {
    Real& value = parameters_[effect.parameter];
    switch (effect.move) {
      case circuit::Move::relative:
        value = value * (1.0 + effect.half_width * u);
        return;
      case circuit::Move::logarithmic:
        value = value * devices::exponential(Real(effect.half_width * u));
        return;
      case circuit::Move::additive:
        value = value + effect.half_width * u;
        return;
    }
  }

  /// What the pole's number is multiplied with; added, for a threshold.
  void find_ratio(std::size_t k) noexcept {
    const LaneTarget& target = plan_.targets[k];
    const Real& value = parameters_[target.parameter];
    const double nominal = plan_.parameters[target.parameter];
    switch (target.what) {
      case Scaled::conductance:
      case Scaled::early_voltage:
      case Scaled::inverse_early_voltage:
      case Scaled::knee_current:
      case Scaled::inverse_knee_current:
        ratios_[k] = nominal / value;
        return;
      case Scaled::threshold:
        ratios_[k] = value - nominal;
        return;
      default:
        ratios_[k] = value / nominal;
    }
  }

  void load_passives() noexcept {
    for (std::size_t k = 0; k < conductance_s.size(); ++k) {
      conductance_s[k] = Real(plan_.numbers.conductance_s[k]);
    }
    for (std::size_t k = 0; k < emf_v.size(); ++k) emf_v[k] = Real(plan_.numbers.emf_v[k]);
    for (std::size_t k = 0; k < track_ohm.size(); ++k) {
      track_ohm[k] = Real(plan_.circuit->at(plan_.system.wiring.tracks[k].part).value);
    }
    for (std::size_t k = 0; k < plan_.targets.size(); ++k) {
      const LaneTarget& target = plan_.targets[k];
      if (target.what == Scaled::conductance) {
        conductance_s[target.pole] = conductance_s[target.pole] * ratios_[k];
      } else if (target.what == Scaled::emf) {
        emf_v[target.pole] = emf_v[target.pole] * ratios_[k];
      } else if (target.what == Scaled::track) {
        load_track(target.pole, ratios_[k]);
      }
    }
  }

  void load_track(std::size_t k, const Real& ratio) noexcept {
    const Track& track = plan_.system.wiring.tracks[k];
    const auto& details = std::get<circuit::TrimmerDetails>(plan_.circuit->at(track.part).details);
    track_ohm[k] = track_ohm[k] * ratio;
    const double end_ohm = details.end_resistance_ohm;
    if (track.stretch_a) {
      conductance_s[*track.stretch_a] = 1.0 / (details.travel * track_ohm[k] + end_ohm);
    }
    if (track.stretch_b) {
      conductance_s[*track.stretch_b] = 1.0 / ((1.0 - details.travel) * track_ohm[k] + end_ohm);
    }
  }

  static void scale(devices::BasicScaled<Real>& number, const Real& ratio) noexcept {
    number.value = number.value * ratio;
    number.per_k = number.per_k * ratio;
  }

  static void scale(devices::BasicBipolarAt<Real>& at, Scaled what, const Real& ratio) noexcept {
    switch (what) {
      case Scaled::saturation:
        return scale(at.saturation_a, ratio);
      case Scaled::gain:
        return scale(at.gain, ratio);
      case Scaled::inverse_gain:
        return scale(at.inverse_gain, ratio);
      case Scaled::recombination:
        return scale(at.recombination_a, ratio);
      case Scaled::collector_recombination:
        return scale(at.collector_recombination_a, ratio);
      case Scaled::cutoff:
        return scale(at.cutoff_a, ratio);
      case Scaled::early_voltage:
        at.per_early_v = at.per_early_v * ratio;
        return;
      case Scaled::inverse_early_voltage:
        at.per_inverse_early_v = at.per_inverse_early_v * ratio;
        return;
      case Scaled::knee_current:
        at.per_knee_a = at.per_knee_a * ratio;
        return;
      case Scaled::inverse_knee_current:
        at.per_inverse_knee_a = at.per_inverse_knee_a * ratio;
        return;
      default:
        return;
    }
  }

  static void scale(devices::BasicDiodeAt<Real>& at, Scaled what, const Real& ratio) noexcept {
    if (what == Scaled::diode_saturation) {
      at.forward.saturation_a = at.forward.saturation_a * ratio;
      at.forward.saturation_a_per_k = at.forward.saturation_a_per_k * ratio;
    } else if (what == Scaled::diode_zener) {
      at.zener_v = at.zener_v * ratio;
      at.zener_v_per_k = at.zener_v_per_k * ratio;
    } else {
      at.zener_test_a = at.zener_test_a * ratio;
    }
  }

  static void scale(devices::BasicFetAt<Real>& at, Scaled what, const Real& ratio) noexcept {
    if (what == Scaled::threshold) {
      at.threshold_v = at.threshold_v + ratio;
    } else if (what == Scaled::current_factor) {
      at.factor_a_per_v2 = at.factor_a_per_v2 * ratio;
      at.factor_per_k = at.factor_per_k * ratio;
    } else {
      at.drain_slope_per_v = at.drain_slope_per_v * ratio;
    }
  }

  const LanePlan& plan_;
  std::vector<Real> parameters_;
  std::vector<Real> ratios_;

 public:
  std::vector<Real> conductance_s;
  std::vector<Real> emf_v;
  std::vector<Real> track_ohm;
  std::vector<devices::BasicDiodeAt<Real>> diodes;
  std::vector<devices::BasicBipolarAt<Real>> bipolars;
  std::vector<devices::BasicFetAt<Real>> fets;

 private:
  std::vector<std::vector<std::size_t>> bipolar_targets_;
  std::vector<std::vector<std::size_t>> diode_targets_;
  std::vector<std::vector<std::size_t>> fet_targets_;
};

}  // namespace idlepoint::solve
