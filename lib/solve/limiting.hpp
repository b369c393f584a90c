// How far each kind of junction may move in one Newton step.
//
// Exponentials are followed where their current goes, not where the tangent's voltage points; the
// square law of a FET is allowed to double; a feed may not leap over its knee. Inline: the hot
// path. Method: docs/how_it_solves.md, "Limiting".
#pragma once

#include <algorithm>

#include "solve/wiring.hpp"

namespace idlepoint::solve {

/// Forward side, and the mirrored breakdown side where there is one.
[[nodiscard]] inline double limited_diode(const DiodeNumbers& diode,
                                          double asked_v,
                                          double last_v) noexcept {
  const devices::DiodeAt& at = diode.at;
  if (at.has_zener && asked_v + at.zener_v < 0.0) {
    const double last = -(last_v + at.zener_v);
    return -at.zener_v -
           devices::limited_junction_voltage(
               -(asked_v + at.zener_v), last, at.zener_scale_v, diode.zener_critical_v);
  }
  return devices::limited_junction_voltage(asked_v, last_v, at.forward.scale_v, diode.critical_v);
}

/// 10 uA at the breakdown voltage: the reverse junction's curve bends most about here above it.
inline constexpr double breakdown_critical_v = 0.19;

[[nodiscard]] inline double limited_base_emitter(const BipolarNumbers& bipolar,
                                                 double asked_v,
                                                 double last_v) noexcept {
  const devices::BipolarAt& at = bipolar.at;
  if (at.has_breakdown && asked_v + at.breakdown_v < 0.0) {
    return -at.breakdown_v - devices::limited_junction_voltage(-(asked_v + at.breakdown_v),
                                                               -(last_v + at.breakdown_v),
                                                               at.thermal_v.value,
                                                               breakdown_critical_v);
  }
  return devices::limited_junction_voltage(
      asked_v, last_v, at.ideality * at.thermal_v.value, bipolar.emitter_critical_v);
}

[[nodiscard]] inline double limited_base_collector(const BipolarNumbers& bipolar,
                                                   double asked_v,
                                                   double last_v) noexcept {
  const devices::BipolarAt& at = bipolar.at;
  return devices::limited_junction_voltage(
      asked_v, last_v, at.inverse_ideality * at.thermal_v.value, bipolar.collector_critical_v);
}

/// Drive above threshold from which a FET may start.
inline constexpr double first_drive_v = 0.5;

/// The drive above threshold may double, or start at 0.5 V; on the way down it may halve.
[[nodiscard]] inline double limited_gate(const FetNumbers& fet,
                                         double asked_v,
                                         double last_v) noexcept {
  const double last = last_v - fet.at.threshold_v;
  const double asked = asked_v - fet.at.threshold_v;
  const double highest = std::max(2.0 * last, first_drive_v);
  if (asked > highest) return highest + fet.at.threshold_v;
  if (last > 0.0) {
    const double lowest = 0.5 * last - first_drive_v;
    if (asked < lowest) return lowest + fet.at.threshold_v;
  }
  return asked_v;
}

/// Half of the range over which a feed's knee bends.
inline constexpr double half_knee_v = 0.2;

/// Both flat sides of the knee hide the other from a tangent: a step across stops at its edge.
[[nodiscard]] inline double limited_feed(double compliance_v,
                                         double asked_v,
                                         double last_v) noexcept {
  const double low = compliance_v - half_knee_v;
  const double high = compliance_v + half_knee_v;
  if (last_v > high && asked_v < high) return std::max(asked_v, high - half_knee_v);
  if (last_v < low && asked_v > low) return std::min(asked_v, low + half_knee_v);
  return asked_v;
}

}  // namespace idlepoint::solve
