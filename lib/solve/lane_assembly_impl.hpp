// The bodies of solve/lane_assembly.hpp; included by it alone.
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
void LaneAssembly<Real>::assemble_conductors() noexcept {
  for (std::size_t j = 0; j < plan_.travels.size(); ++j) {
    const LaneTravel& travel = plan_.travels[j];
    const Track& track = plan_.system.wiring.tracks[travel.track];
    const double end_ohm =
        std::get<circuit::TrimmerDetails>(plan_.circuit->at(track.part).details).end_resistance_ohm;
    const Real& ohm = numbers_.track_ohm[travel.track];
    const Real& share = x[at(travel.row)];
    if (track.stretch_a) conductance_s_[*track.stretch_a] = 1.0 / (share * ohm + end_ohm);
    if (track.stretch_b) conductance_s_[*track.stretch_b] = 1.0 / ((1.0 - share) * ohm + end_ohm);
  }
  for (std::size_t k = 0; k < plan_.conductors.size(); ++k) {
    if (plan_.moves[k]) {
      assemble_moving_conductor(k);
      continue;
    }
    const TwoPoleStamp& stamp = plan_.conductors[k];
    conductor_a_[k] = conductance_s_[k] * across(stamp);
    add_balance(stamp.row_a, conductor_a_[k]);
    add_balance(stamp.row_b, -conductor_a_[k]);
    if (plan_.conductor_heat[k]) {
      heat(stamp, {conductor_a_[k], conductance_s_[k], Real(0.0)}, *plan_.conductor_heat[k]);
    }
  }
  for (const InsulationStamp& stamp : plan_.insulation) {
    add_balance(stamp.row, insulation_s * point_v_[at(stamp.point)]);
  }
}

template <class Real>
void LaneAssembly<Real>::assemble_moving_conductor(std::size_t k) noexcept {
  const TwoPoleStamp& poles = plan_.conductors[k];
  Two two{Real(0.0), conductance_s_[k], Real(0.0)};
  if (plan_.thermistors[k]) {
    const auto [ohm, beta_k] = *plan_.thermistors[k];
    const auto r = devices::law::thermistor_resistance<Real>(
        Real(ohm), Real(beta_k), temperature_k_[plan_.conductor_heat[k]->heated]);
    two.s = 1.0 / r.ohm;
    two.a_per_k = -two.s * two.s * r.ohm_per_k * across(poles);
    conductance_s_[k] = two.s;
  }
  two.a = two.s * across(poles);
  conductor_a_[k] = two.a;
  stamp(poles, two);
  if (plan_.conductor_heat[k]) heat(poles, two, *plan_.conductor_heat[k]);
}

/// At its part's temperature: a diode's own, or one of a FET's inner diodes.
template <class Real>
devices::BasicDiodeAt<Real> LaneAssembly<Real>::warm_diode(std::size_t k) const noexcept {
  const Real& temperature_k = temperature_k_[plan_.diode_heat[k]->heated];
  if (const auto* fet = std::get_if<devices::FetData>(&plan_.diode_data[k])) {
    devices::BasicDiodeAt<Real> at;
    at.forward = devices::law::fet_at<Real>(devices::law::widened<Real>(*fet), temperature_k).diode;
    return numbers_.diode(k, at);
  }
  const auto& data = std::get<devices::DiodeData>(plan_.diode_data[k]);
  return numbers_.diode(
      k, devices::law::diode_at<Real>(devices::law::widened<Real>(data), temperature_k));
}

template <class Real>
void LaneAssembly<Real>::assemble_diodes() noexcept {
  for (std::size_t k = 0; k < plan_.diodes.size(); ++k) {
    const DiodeNumbers& nominal = plan_.numbers.diodes[k];
    if (plan_.diode_heat[k]) numbers_.diodes[k] = warm_diode(k);
    const devices::BasicDiodeAt<Real>& law = numbers_.diodes[k];
    const Real asked = across(plan_.diodes[k]) / nominal.count;
    const Real limited =
        law.has_zener ? limited_both_ways<Real>(asked,
                                                diode_v_[k],
                                                {law.forward.scale_v, law.zener_scale_v},
                                                {nominal.critical_v, nominal.zener_critical_v},
                                                law.zener_v)
                      : devices::law::limited_junction_voltage(
                            asked, diode_v_[k], law.forward.scale_v, Real(nominal.critical_v));
    const Real& v = move_to(diode_v_[k], limited, asked);
    const auto now = devices::law::evaluate_diode(law, v);
    Two& two = two_poles_[0][k];
    two.a = now.current_a + now.conductance_s * (asked - v);
    two.s = now.conductance_s / nominal.count;
    two.a_per_k = now.slope_a_per_k;
    in_range_ = in_range_ && v < devices::largest_exponent * law.forward.scale_v;
    stamp(plan_.diodes[k], two);
    if (plan_.diode_heat[k]) heat(plan_.diodes[k], two, *plan_.diode_heat[k]);
  }
}

template <class Real>
void LaneAssembly<Real>::assemble_lamps() noexcept {
  for (std::size_t k = 0; k < plan_.lamps.size(); ++k) {
    const LampNumbers& lamp = plan_.numbers.lamps[k];
    const auto law = devices::law::evaluate_lamp<Real>(
        Real(lamp.rated_v), Real(lamp.rated_w), across(plan_.lamps[k]));
    two_poles_[1][k] = {law.current_a, law.conductance_s, Real(0.0)};
    stamp(plan_.lamps[k], two_poles_[1][k]);
  }
}

template <class Real>
void LaneAssembly<Real>::assemble_feeds() noexcept {
  for (std::size_t k = 0; k < plan_.feeds.size(); ++k) {
    const FeedNumbers& feed = plan_.numbers.feeds[k];
    Two& two = two_poles_[2][k];
    two = {Real(feed.value_a), Real(0.0), Real(0.0)};
    if (feed.compliance_v) {
      const Real asked = across(plan_.feeds[k]);
      const Real limited = limited_feed(*feed.compliance_v, asked, feed_v_[k]);
      const Real& v = move_to(feed_v_[k], limited, asked);
      const auto law = devices::law::evaluate_feed<Real>(Real(feed.value_a), *feed.compliance_v, v);
      two.a = law.current_a + law.conductance_s * (asked - v);
      two.s = law.conductance_s;
    }
    stamp(plan_.feeds[k], two);
  }
}

template <class Real>
void LaneAssembly<Real>::assemble_bipolars() noexcept {
  for (std::size_t k = 0; k < plan_.bipolars.size(); ++k) {
    const ThreePoleStamp& poles = plan_.bipolars[k];
    const BipolarNumbers& nominal = plan_.numbers.bipolars[k];
    if (plan_.bipolar_heat[k]) {
      const auto at_t =
          devices::law::bipolar_at<Real>(devices::law::widened<Real>(plan_.bipolar_data[k]),
                                         temperature_k_[plan_.bipolar_heat[k]->heated]);
      numbers_.bipolars[k] = numbers_.bipolar(k, at_t);
    }
    const devices::BasicBipolarAt<Real>& law = numbers_.bipolars[k];
    const double sign = nominal.sign;
    const Real& base_v = point_v_[at(poles.points[1])];
    const Real asked_ube = sign * (base_v - point_v_[at(poles.points[2])]);
    const Real asked_ubc = sign * (base_v - point_v_[at(poles.points[0])]);
    const Real be_scale_v = law.ideality * law.thermal_v.value;
    const Real bc_scale_v = law.inverse_ideality * law.thermal_v.value;
    const Real limited_ube =
        law.has_breakdown
            ? limited_both_ways<Real>(asked_ube,
                                      bipolar_v_[k][0],
                                      {be_scale_v, law.thermal_v.value},
                                      {nominal.emitter_critical_v, breakdown_critical_v},
                                      law.breakdown_v)
            : devices::law::limited_junction_voltage(
                  asked_ube, bipolar_v_[k][0], be_scale_v, Real(nominal.emitter_critical_v));
    const Real limited_ubc = devices::law::limited_junction_voltage(
        asked_ubc, bipolar_v_[k][1], bc_scale_v, Real(nominal.collector_critical_v));
    const Real& ube = move_to(bipolar_v_[k][0], limited_ube, asked_ube);
    const Real& ubc = move_to(bipolar_v_[k][1], limited_ubc, asked_ubc);
    const auto now = devices::law::evaluate_bipolar(law, ube, ubc);
    const Real dube = asked_ube - ube;
    const Real dubc = asked_ubc - ubc;
    Three& t = three_poles_[0][k];
    t.a[0] =
        sign * (now.collector_a + now.collector_by_ube_s * dube + now.collector_by_ubc_s * dubc);
    t.a[1] = sign * (now.base_a + now.base_by_ube_s * dube + now.base_by_ubc_s * dubc);
    t.s00 = -now.collector_by_ubc_s;
    t.s01 = now.collector_by_ube_s + now.collector_by_ubc_s;
    t.s10 = -now.base_by_ubc_s;
    t.s11 = now.base_by_ube_s + now.base_by_ubc_s;
    in_range_ = in_range_ && now.in_range && ube < devices::largest_exponent * be_scale_v &&
                ubc < devices::largest_exponent * bc_scale_v;
    stamp(poles, t);
    if (plan_.bipolar_heat[k]) {
      t.a_per_k = {sign * now.collector_a_per_k, sign * now.base_a_per_k};
      heat(poles, t, *plan_.bipolar_heat[k]);
    }
  }
}

template <class Real>
void LaneAssembly<Real>::assemble_fets() noexcept {
  for (std::size_t k = 0; k < plan_.fets.size(); ++k) {
    const ThreePoleStamp& poles = plan_.fets[k];
    const FetNumbers& nominal = plan_.numbers.fets[k];
    if (plan_.fet_heat[k]) {
      const auto at_t = devices::law::fet_at<Real>(devices::law::widened<Real>(plan_.fet_data[k]),
                                                   temperature_k_[plan_.fet_heat[k]->heated]);
      numbers_.fets[k] = numbers_.fet(k, at_t);
    }
    const devices::BasicFetAt<Real>& law = numbers_.fets[k];
    const double sign = nominal.sign;
    const Real n = law.slope_factor;
    const Real& source_v = point_v_[at(poles.points[2])];
    const Real asked_ugs = sign * (point_v_[at(poles.points[1])] - source_v);
    const Real asked_uds = sign * (point_v_[at(poles.points[0])] - source_v);
    const Real asked_ugd = asked_ugs - n * asked_uds;
    const double threshold_v = nominal.at.threshold_v;
    const Real limited_ugs = limited_gate(threshold_v, asked_ugs, fet_v_[k][0]);
    const Real limited_ugd = limited_gate(threshold_v, asked_ugd, fet_v_[k][1]);
    const Mask stands = limited_ugs == asked_ugs && limited_ugd == asked_ugd;
    const Real& ugs = move_to(fet_v_[k][0], limited_ugs, asked_ugs);
    const Real& ugd = move_to(fet_v_[k][1], limited_ugd, asked_ugd);
    const Real uds = devices::select(stands, asked_uds, (ugs - ugd) / n);
    const auto now = devices::law::evaluate_fet(law, ugs, uds);
    Three& t = three_poles_[1][k];
    t.a[0] =
        sign * (now.drain_a + now.by_ugs_s * (asked_ugs - ugs) + now.by_uds_s * (asked_uds - uds));
    t.s00 = now.by_uds_s;
    t.s01 = now.by_ugs_s;
    stamp(poles, t);
    if (plan_.fet_heat[k]) {
      t.a_per_k = {sign * now.drain_a_per_k, Real(0.0)};
      heat(poles, t, *plan_.fet_heat[k]);
    }
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
