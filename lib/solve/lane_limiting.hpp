// How far the junctions of a lane may move in one step: solve/limiting for any Real.
//
// The critical voltages are the nominal part's in every lane.
#pragma once

#include "devices/bipolar.hpp"
#include "devices/diode.hpp"
#include "devices/fet.hpp"
#include "devices/junction_law.hpp"
#include "solve/limiting.hpp"

namespace idlepoint::solve {

/// Forward, and mirrored where the breakdown voltage is passed.
template <class Real>
[[nodiscard]] inline Real limited_both_ways(const Real& asked_v,
                                            const Real& last_v,
                                            const std::array<Real, 2>& scale_v,
                                            const std::array<double, 2>& critical_v,
                                            const Real& breakdown_v) noexcept {
  const Real forward =
      devices::law::limited_junction_voltage(asked_v, last_v, scale_v[0], Real(critical_v[0]));
  const auto is_beyond = asked_v + breakdown_v < 0.0;
  if (!devices::any(is_beyond)) return forward;
  const Real mirrored = devices::law::limited_junction_voltage(Real(-(asked_v + breakdown_v)),
                                                               Real(-(last_v + breakdown_v)),
                                                               scale_v[1],
                                                               Real(critical_v[1]));
  return devices::select(is_beyond, -breakdown_v - mirrored, forward);
}

template <class Real>
[[nodiscard]] inline Real limited_gate(double nominal_threshold_v,
                                       const Real& asked_v,
                                       const Real& last_v) noexcept {
  const Real last = last_v - nominal_threshold_v;
  const Real asked = asked_v - nominal_threshold_v;
  const Real highest = devices::select(2.0 * last > first_drive_v, 2.0 * last, Real(first_drive_v));
  const Real lowest = 0.5 * last - first_drive_v;
  const Real down =
      devices::select(last > 0.0 && asked < lowest, Real(lowest + nominal_threshold_v), asked_v);
  return devices::select(asked > highest, Real(highest + nominal_threshold_v), down);
}

template <class Real>
[[nodiscard]] inline Real limited_feed(double compliance_v,
                                       const Real& asked_v,
                                       const Real& last_v) noexcept {
  const double low = compliance_v - half_knee_v;
  const double high = compliance_v + half_knee_v;
  const auto falls = last_v > high && asked_v < high;
  const auto rises = last_v < low && asked_v > low;
  const Real fallen = devices::select(asked_v > compliance_v, asked_v, Real(compliance_v));
  const Real risen = devices::select(asked_v < compliance_v, asked_v, Real(compliance_v));
  return devices::select(falls, fallen, devices::select(rises, risen, asked_v));
}

}  // namespace idlepoint::solve
