// A variant loaded, stamps, heat, tests of a state: part of solve/lane_assembly.hpp, which
// alone includes it.
#pragma once

#include "solve/lane_assembly.hpp"

namespace idlepoint::solve {

template <class Real>
void LaneAssembly<Real>::stand_at_nominal() noexcept {
  for (std::size_t k = 0; k < plan_.x.size(); ++k) x[k] = Real(plan_.x[k]);
  x.back() = Real(0.0);
  const State& start = plan_.start;
  for (std::size_t k = 0; k < diode_v_.size(); ++k) diode_v_[k] = Real(start.diode_v[k]);
  for (std::size_t k = 0; k < feed_v_.size(); ++k) feed_v_[k] = Real(start.feed_v[k]);
  for (std::size_t k = 0; k < bipolar_v_.size(); ++k) {
    bipolar_v_[k] = {Real(start.bipolar_v[k][0]), Real(start.bipolar_v[k][1])};
  }
  for (std::size_t k = 0; k < fet_v_.size(); ++k) {
    fet_v_[k] = {Real(start.fet_v[k][0]), Real(start.fet_v[k][1])};
  }
  std::fill(held_.begin(), held_.end(), Real(0.0));
  heat_scale_ = 1.0;
}

template <class Real>
void LaneAssembly<Real>::load(std::span<const Real> u) noexcept {
  numbers_.load(u);
  std::fill(offset_v_.begin(), offset_v_.end(), Real(0.0));
  for (const OffsetStep& step : plan_.system.offsets) {
    offset_v_[at(step.point)] = offset_v_[at(step.from)] + step.sign * numbers_.emf_v[step.ideal];
  }
  fix_slopes();
}

template <class Real>
void LaneAssembly<Real>::fix_slopes() noexcept {
  std::fill(slopes.begin(), slopes.end(), Real(0.0));
  for (std::size_t k = 0; k < plan_.conductors.size(); ++k) {
    conductance_s_[k] = numbers_.conductance_s[k];
    if (plan_.moves[k]) continue;
    const TwoPoleStamp& stamp = plan_.conductors[k];
    add(stamp.aa, conductance_s_[k]);
    add(stamp.ab, -conductance_s_[k]);
    add(stamp.ba, -conductance_s_[k]);
    add(stamp.bb, conductance_s_[k]);
  }
  for (const InsulationStamp& stamp : plan_.insulation) add(stamp.slot, Real(insulation_s));
  for (const LaneSink& sink : plan_.sinks) {
    add(sink.diagonal, Real(1.0));
    for (const auto& [row, slot] : sink.parts) add(slot, Real(-heat_scale_ * sink.k_per_w));
  }
  for (const LaneHeated& lane : plan_.heated) add(lane.by_power, Real(1.0));
  std::swap(fixed_, slopes);
}

template <class Real>
void LaneAssembly<Real>::find_temperatures() noexcept {
  for (std::size_t j = 0; j < plan_.heated.size(); ++j) {
    const LaneHeated& lane = plan_.heated[j];
    temperature_k_[j] = plan_.ambient_k + rise_k(lane, x);
    power_w_[j] = Real(0.0);
  }
}

template <class Real>
void LaneAssembly<Real>::find_points() noexcept {
  const auto& unknown_of = plan_.system.unknown_of;
  for (std::size_t k = 0; k < point_v_.size(); ++k) {
    const Index unknown = unknown_of[k];
    point_v_[k] = unknown < plan_.system.unknowns ? x[at(unknown)] + offset_v_[k] : offset_v_[k];
  }
}

template <class Real>
typename LaneAssembly<Real>::Mask LaneAssembly<Real>::assemble() noexcept {
  std::copy(fixed_.begin(), fixed_.end(), slopes.begin());
  std::fill(balance.begin(), balance.end(), Real(0.0));
  in_range_ = Mask(true);
  arrived_ = Mask(true);
  find_temperatures();
  find_points();
  assemble_conductors();
  assemble_diodes();
  assemble_lamps();
  assemble_feeds();
  assemble_bipolars();
  assemble_fets();
  assemble_heat();
  assemble_travels();
  return arrived_;
}

template <class Real>
void LaneAssembly<Real>::stamp(const TwoPoleStamp& stamp, const Two& two) noexcept {
  add_balance(stamp.row_a, two.a);
  add_balance(stamp.row_b, -two.a);
  add(stamp.aa, two.s);
  add(stamp.ab, -two.s);
  add(stamp.ba, -two.s);
  add(stamp.bb, two.s);
}

template <class Real>
void LaneAssembly<Real>::stamp(const ThreePoleStamp& stamp, const Three& t) noexcept {
  add_balance(stamp.rows[0], t.a[0]);
  add_balance(stamp.rows[1], t.a[1]);
  add_balance(stamp.rows[2], -(t.a[0] + t.a[1]));
  const Real s02 = -(t.s00 + t.s01);
  const Real s12 = -(t.s10 + t.s11);
  add(stamp.slots[0], t.s00);
  add(stamp.slots[1], t.s01);
  add(stamp.slots[2], s02);
  add(stamp.slots[3], t.s10);
  add(stamp.slots[4], t.s11);
  add(stamp.slots[5], s12);
  add(stamp.slots[6], -(t.s00 + t.s10));
  add(stamp.slots[7], -(t.s01 + t.s11));
  add(stamp.slots[8], -(s02 + s12));
}

/// The part's watts grow by i (va - vb); its currents move with its watts and its sink.
template <class Real>
void LaneAssembly<Real>::heat(const TwoPoleStamp& stamp,
                              const Two& two,
                              const HeatSlots& slots) noexcept {
  const LaneHeated& lane = plan_.heated[slots.heated];
  const Real across_v = across(stamp);
  power_w_[slots.heated] = power_w_[slots.heated] + two.a * across_v;
  const Real by_v = two.a + two.s * across_v;
  add(slots.power_by_row[0], -by_v);
  add(slots.power_by_row[1], by_v);
  const Real watts_per_k = two.a_per_k * across_v;
  add(lane.by_power, -(own_k_per_w(lane) * watts_per_k));
  add(lane.by_sink, -(lane.coupling * watts_per_k));
  add(slots.row_by_power[0], own_k_per_w(lane) * two.a_per_k);
  add(slots.row_by_power[1], -(own_k_per_w(lane) * two.a_per_k));
  add(slots.row_by_sink[0], lane.coupling * two.a_per_k);
  add(slots.row_by_sink[1], -(lane.coupling * two.a_per_k));
}

template <class Real>
void LaneAssembly<Real>::heat(const ThreePoleStamp& stamp,
                              const Three& t,
                              const HeatSlots& slots) noexcept {
  const LaneHeated& lane = plan_.heated[slots.heated];
  const Real v0 = point_v_[at(stamp.points[0])] - point_v_[at(stamp.points[2])];
  const Real v1 = point_v_[at(stamp.points[1])] - point_v_[at(stamp.points[2])];
  power_w_[slots.heated] = power_w_[slots.heated] + (t.a[0] * v0 + t.a[1] * v1);
  const Real by_0 = t.a[0] + v0 * t.s00 + v1 * t.s10;
  const Real by_1 = t.a[1] + v0 * t.s01 + v1 * t.s11;
  add(slots.power_by_row[0], -by_0);
  add(slots.power_by_row[1], -by_1);
  add(slots.power_by_row[2], by_0 + by_1);
  const Real watts_per_k = t.a_per_k[0] * v0 + t.a_per_k[1] * v1;
  add(lane.by_power, -(own_k_per_w(lane) * watts_per_k));
  add(lane.by_sink, -(lane.coupling * watts_per_k));
  const std::array<Real, 3> per_k{t.a_per_k[0], t.a_per_k[1], -(t.a_per_k[0] + t.a_per_k[1])};
  for (std::size_t i = 0; i < 3; ++i) {
    add(slots.row_by_power[i], own_k_per_w(lane) * per_k[i]);
    add(slots.row_by_sink[i], lane.coupling * per_k[i]);
  }
}

template <class Real>
void LaneAssembly<Real>::assemble_heat() noexcept {
  for (std::size_t j = 0; j < plan_.heated.size(); ++j) {
    add_balance(plan_.heated[j].row, x[at(plan_.heated[j].row)] - power_w_[j]);
  }
  for (const LaneSink& sink : plan_.sinks) {
    Real watts(0.0);
    for (const auto& [row, slot] : sink.parts) watts = watts + x[at(row)];
    add_balance(sink.row, x[at(sink.row)] - heat_scale_ * sink.k_per_w * watts);
  }
}

template <class Real>
typename LaneAssembly<Real>::Mask LaneAssembly<Real>::is_balanced() const noexcept {
  constexpr double rounding = 8.0 * std::numeric_limits<double>::epsilon();
  constexpr double smallest_balance = 1e-13;
  Real largest_v(0.0);
  for (const Real& v : point_v_) {
    const Real size = devices::magnitude(v);
    largest_v = devices::select(size > largest_v, size, largest_v);
  }
  Mask balanced(true);
  for (std::size_t k = 0; k < at(plan_.system.unknowns); ++k) {
    const Real& slope = slopes[at(plan_.elimination.diagonal_slot(static_cast<Index>(k)))];
    const Real tolerance = smallest_balance + rounding * devices::magnitude(slope) * largest_v;
    balanced = balanced && devices::magnitude(balance[k]) <= tolerance;
  }
  // Watts and kelvins: a part in 1e10 and what rounding leaves of the currents.
  for (std::size_t k = at(plan_.system.unknowns); k < at(plan_.rows) - plan_.travels.size(); ++k) {
    balanced =
        balanced && devices::magnitude(balance[k]) <= 1e-10 + 1e-10 * devices::magnitude(x[k]);
  }
  for (const LaneTravel& travel : plan_.travels) {
    balanced = balanced && devices::magnitude(balance[at(travel.row)]) <= travel.tolerance;
  }
  return balanced;
}

template <class Real>
typename LaneAssembly<Real>::Mask LaneAssembly<Real>::is_sound() const noexcept {
  Mask sound = in_range_;
  for (const Real& v : point_v_) sound = sound && devices::magnitude(v) < 1e6;
  return sound;
}

template <class Real>
typename LaneAssembly<Real>::Mask LaneAssembly<Real>::is_cool() const noexcept {
  Mask cool(true);
  for (std::size_t j = 0; j < plan_.heated.size(); ++j) {
    cool = cool && temperature_k_[j] <= plan_.heated[j].max_k;
  }
  return cool;
}

}  // namespace idlepoint::solve
