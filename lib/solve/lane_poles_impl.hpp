// Poles of each family evaluated and stamped: part of solve/lane_assembly.hpp, which
// alone includes it.
#pragma once

#include "solve/lane_assembly.hpp"

namespace idlepoint::solve {

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

/// At its part's temperature.
template <class Real>
void LaneAssembly<Real>::warm_bipolar(std::size_t k) noexcept {
  const auto at_t =
      devices::law::bipolar_at<Real>(devices::law::widened<Real>(plan_.bipolar_data[k]),
                                     temperature_k_[plan_.bipolar_heat[k]->heated]);
  numbers_.bipolars[k] = numbers_.bipolar(k, at_t);
}

/// Where the two junctions are evaluated, {ube, ubc}, when they are asked to stand at `asked`.
template <class Real>
const std::array<Real, 2>& LaneAssembly<Real>::move_bipolar(
    std::size_t k, const std::array<Real, 2>& asked) noexcept {
  const BipolarNumbers& nominal = plan_.numbers.bipolars[k];
  const devices::BasicBipolarAt<Real>& law = numbers_.bipolars[k];
  std::array<Real, 2>& last = bipolar_v_[k];
  const Real be_scale_v = law.ideality * law.thermal_v.value;
  const Real bc_scale_v = law.inverse_ideality * law.thermal_v.value;
  const Real ube = law.has_breakdown
                       ? limited_both_ways<Real>(asked[0],
                                                 last[0],
                                                 {be_scale_v, law.thermal_v.value},
                                                 {nominal.emitter_critical_v, breakdown_critical_v},
                                                 law.breakdown_v)
                       : devices::law::limited_junction_voltage(
                             asked[0], last[0], be_scale_v, Real(nominal.emitter_critical_v));
  const Real ubc = devices::law::limited_junction_voltage(
      asked[1], last[1], bc_scale_v, Real(nominal.collector_critical_v));
  move_to(last[0], ube, asked[0]);
  move_to(last[1], ubc, asked[1]);
  in_range_ = in_range_ && ube < devices::largest_exponent * be_scale_v &&
              ubc < devices::largest_exponent * bc_scale_v;
  return last;
}

template <class Real>
void LaneAssembly<Real>::assemble_bipolars() noexcept {
  for (std::size_t k = 0; k < plan_.bipolars.size(); ++k) {
    const ThreePoleStamp& poles = plan_.bipolars[k];
    if (plan_.bipolar_heat[k]) warm_bipolar(k);
    const double sign = plan_.numbers.bipolars[k].sign;
    const Real& base_v = point_v_[at(poles.points[1])];
    const std::array<Real, 2> asked{sign * (base_v - point_v_[at(poles.points[2])]),
                                    sign * (base_v - point_v_[at(poles.points[0])])};
    const auto& [ube, ubc] = move_bipolar(k, asked);
    const auto now = devices::law::evaluate_bipolar(numbers_.bipolars[k], ube, ubc);
    const Real dube = asked[0] - ube;
    const Real dubc = asked[1] - ubc;
    Three& t = three_poles_[0][k];
    t.a[0] =
        sign * (now.collector_a + now.collector_by_ube_s * dube + now.collector_by_ubc_s * dubc);
    t.a[1] = sign * (now.base_a + now.base_by_ube_s * dube + now.base_by_ubc_s * dubc);
    t.s00 = -now.collector_by_ubc_s;
    t.s01 = now.collector_by_ube_s + now.collector_by_ubc_s;
    t.s10 = -now.base_by_ubc_s;
    t.s11 = now.base_by_ube_s + now.base_by_ubc_s;
    in_range_ = in_range_ && now.in_range;
    stamp(poles, t);
    if (!plan_.bipolar_heat[k]) continue;
    t.a_per_k = {sign * now.collector_a_per_k, sign * now.base_a_per_k};
    heat(poles, t, *plan_.bipolar_heat[k]);
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

}  // namespace idlepoint::solve
