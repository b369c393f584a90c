// Wanted readings, travels, what probes read: part of solve/lane_assembly.hpp, which
// alone includes it.
#pragma once

#include "solve/lane_assembly.hpp"

namespace idlepoint::solve {

template <class Real>
void LaneAssembly<Real>::assemble_travels() noexcept {
  for (const LaneTravel& travel : plan_.travels) {
    const Track& track = plan_.system.wiring.tracks[travel.track];
    const std::array stretches{track.stretch_a, track.stretch_b};
    for (std::size_t i = 0; i < 2; ++i) {
      if (!stretches[i]) continue;
      const Real g = conductance_s_[*stretches[i]];
      const double way = i == 0 ? -1.0 : 1.0;
      const Real a_per_travel =
          way * g * g * numbers_.track_ohm[travel.track] * across(plan_.conductors[*stretches[i]]);
      add(travel.row_by_travel[i][0], a_per_travel);
      add(travel.row_by_travel[i][1], -a_per_travel);
    }
    assemble_reading(travel);
  }
  for (std::size_t k = 0; k < plan_.travels.size(); ++k) hold_row(k);
}

/// The row of one wanted reading: its value less the target, and how it moves.
template <class Real>
void LaneAssembly<Real>::assemble_reading(const LaneTravel& travel) noexcept {
  add_balance(travel.row, read(travel.probe) - travel.target);
  add(travel.by_volts[0], Real(1.0));
  add(travel.by_volts[1], Real(-1.0));
  for (std::size_t i = 0; i < travel.by_unknown.size(); ++i) {
    const CurrentTerm& term = travel.probe.currents.front().terms[i];
    const Terminal slope = terminal(term);
    for (std::size_t row = 0; row < 3; ++row) {
      add(travel.by_unknown[i][row], term.weight * slope.by_row[row]);
    }
    if (const HeatSlots* heated = plan_.heat_of(term)) {
      const LaneHeated& lane = plan_.heated[heated->heated];
      add(travel.by_heat[i][0], term.weight * own_k_per_w(lane) * slope.by_k);
      add(travel.by_heat[i][1], term.weight * lane.coupling * slope.by_k);
    }
    if (term.family != Family::conductor) continue;
    for (const LaneTravel& other : plan_.travels) add_own_travel(travel, other, term);
  }
}

/// Where a travel is held at an end, its row says that it stays.
template <class Real>
void LaneAssembly<Real>::hold_row(std::size_t k) noexcept {
  const Mask held = held_[k] > 0.0;
  if (!devices::any(held)) return;
  const LaneTravel& travel = plan_.travels[k];
  const auto clear = [&](Index slot) {
    slopes[at(slot)] = devices::select(held, Real(0.0), slopes[at(slot)]);
  };
  for (const Index slot : travel.by_volts) clear(slot);
  for (const auto& slots : travel.by_unknown) {
    for (const Index slot : slots) clear(slot);
  }
  for (const auto& slots : travel.by_heat) {
    for (const Index slot : slots) clear(slot);
  }
  for (const Index slot : travel.by_travel) clear(slot);
  Real& own = slopes[at(travel.by_travel[k])];
  own = devices::select(held, Real(1.0), own);
  Real& rest = balance[at(travel.row)];
  rest = devices::select(held, Real(0.0), rest);
}

template <class Real>
typename LaneAssembly<Real>::Mask LaneAssembly<Real>::hold_travels(const Mask& done) noexcept {
  Mask found(false);
  for (std::size_t k = 0; k < plan_.travels.size(); ++k) {
    Real& travel = x[at(plan_.travels[k].row)];
    const Mask below = travel < 0.0;
    const Mask above = travel > 1.0;
    travel = devices::select(below, Real(0.0), devices::select(above, Real(1.0), travel));
    const Mask is_new = (below || above) && !done && held_[k] == 0.0;
    held_[k] = devices::select(is_new, Real(1.0), held_[k]);
    found = found || is_new;
  }
  return found;
}

template <class Real>
typename LaneAssembly<Real>::Mask LaneAssembly<Real>::is_held() const noexcept {
  Mask held(false);
  for (const Real& one : held_) held = held || one > 0.0;
  return held;
}

template <class Real>
typename LaneAssembly<Real>::Mask LaneAssembly<Real>::wants_back() const noexcept {
  Mask back(false);
  for (std::size_t k = 0; k < plan_.travels.size(); ++k) {
    const LaneTravel& travel = plan_.travels[k];
    const Real missing = (travel.target - read(travel.probe)) * (travel.rises ? 1.0 : -1.0);
    const Mask at_a = x[at(travel.row)] < 0.5;
    const Mask inward = (at_a && missing > 0.0) || (!at_a && missing < 0.0);
    back = back || (held_[k] > 0.0 && inward);
  }
  return back;
}

template <class Real>
void LaneAssembly<Real>::let_go(const Mask& lanes) noexcept {
  for (Real& one : held_) one = devices::select(lanes, Real(0.0), one);
}

/// A reading of the current in a track itself moves with the travel at fixed voltages too.
template <class Real>
void LaneAssembly<Real>::add_own_travel(const LaneTravel& reading,
                                        const LaneTravel& moved,
                                        const CurrentTerm& term) noexcept {
  const Track& track = plan_.system.wiring.tracks[moved.track];
  const bool is_a = track.stretch_a == term.pole;
  if (!is_a && track.stretch_b != term.pole) return;
  const Real g = conductance_s_[term.pole];
  const double way = (is_a ? -1.0 : 1.0) * (term.terminal == 0 ? 1.0 : -1.0) * term.weight;
  const std::size_t index = static_cast<std::size_t>(&moved - plan_.travels.data());
  add(reading.by_travel[index],
      way * g * g * numbers_.track_ohm[moved.track] * across(plan_.conductors[term.pole]));
}

template <class Real>
typename LaneAssembly<Real>::Terminal LaneAssembly<Real>::terminal(
    const CurrentTerm& term) const noexcept {
  Terminal result;
  const auto two = [&](const Real& a, const Real& s, const Real& a_per_k) {
    const double sign = term.terminal == 0 ? 1.0 : -1.0;
    result.a = sign * a;
    result.by_row[0] = sign * s;
    result.by_row[1] = -sign * s;
    result.by_k = sign * a_per_k;
  };
  const auto three = [&](const Three& t) {
    const std::array<Real, 3> a{t.a[0], t.a[1], -(t.a[0] + t.a[1])};
    const std::array<Real, 3> k{t.a_per_k[0], t.a_per_k[1], -(t.a_per_k[0] + t.a_per_k[1])};
    const std::array<Real, 3> first{t.s00, t.s01, -(t.s00 + t.s01)};
    const std::array<Real, 3> second{t.s10, t.s11, -(t.s10 + t.s11)};
    result.a = a[term.terminal];
    result.by_k = k[term.terminal];
    for (std::size_t i = 0; i < 3; ++i) {
      result.by_row[i] = term.terminal == 0   ? first[i]
                         : term.terminal == 1 ? second[i]
                                              : -(first[i] + second[i]);
    }
  };
  switch (term.family) {
    case Family::conductor:
      two(conductor_a_[term.pole], conductance_s_[term.pole], Real(0.0));
      break;
    case Family::diode:
    case Family::lamp:
    case Family::feed: {
      const auto family =
          static_cast<std::size_t>(term.family) - static_cast<std::size_t>(Family::diode);
      const Two& pole = two_poles_[family][term.pole];
      two(pole.a, pole.s, pole.a_per_k);
      break;
    }
    case Family::bipolar:
      three(three_poles_[0][term.pole]);
      break;
    case Family::fet:
      three(three_poles_[1][term.pole]);
      break;
    case Family::insulation:
      result.a = insulation_s * point_v_[at(plan_.insulation[term.pole].point)];
      result.by_row[0] = Real(insulation_s);
      break;
  }
  return result;
}

template <class Real>
Real LaneAssembly<Real>::sum(const CurrentSum& currents) const noexcept {
  Real total(0.0);
  for (const CurrentTerm& term : currents.terms) total = total + term.weight * terminal(term).a;
  if (currents.times_point) total = total * point_v_[at(*currents.times_point)];
  if (currents.times_ideal) total = total * numbers_.emf_v[*currents.times_ideal];
  return total;
}

template <class Real>
Real LaneAssembly<Real>::read(const LaneProbe& probe) const noexcept {
  Real value(probe.constant);
  if (probe.volts) {
    value = value + (point_v_[at(probe.volts->first)] - point_v_[at(probe.volts->second)]);
  }
  for (const CurrentSum& currents : probe.currents) value = value + sum(currents);
  if (probe.heated) value = temperature_k_[*probe.heated];
  if (probe.sink) value = value + x[at(plan_.sinks[*probe.sink].row)];
  return value;
}

}  // namespace idlepoint::solve
