// Current through a p-n junction, its slope, and the steps Newton may take along it.
//
// Every device that contains a junction (diode, bipolar transistor, gate and body diode) takes its
// exponential from here, so the guard against overflow is written, documented and tested once. The
// structures are templates on the number: a double here, several lanes or a number with its
// derivative in devices/junction_law.hpp, which holds the law itself.
// Source: [Shockley1949] in docs/sources.md.
#pragma once

#include "devices/elementary.hpp"

namespace idlepoint::devices {

/// The exponential is continued along its own tangent above this, so that value and slope stay
/// finite and continuous for any argument Newton may try. A solution above it is an artefact of
/// the guard; the caller must refuse it.
inline constexpr double largest_exponent = 80.0;

/// A number at one temperature and its slope by temperature.
template <class Real>
struct BasicScaled {
  Real value = Real(0.0);
  Real per_k = Real(0.0);
};
using Scaled = BasicScaled<double>;

/// All that Newton's method needs of a junction at one voltage and temperature.
template <class Real>
struct BasicJunctionTangent {
  Real current_a;      ///< Positive from anode to cathode.
  Real conductance_s;  ///< d(current)/d(voltage). Underflows to 0, never below.
  Real slope_a_per_k;  ///< d(current)/d(temperature), saturation current and kT/q both following.
};
using JunctionTangent = BasicJunctionTangent<double>;

/// A junction's numbers at one temperature, with their slopes by temperature.
template <class Real>
struct BasicJunctionAt {
  Real saturation_a;        ///< >= 0.
  Real saturation_a_per_k;  ///< d(saturation)/dT.
  Real scale_v;             ///< n kT/q, > 0.
  Real scale_v_per_k;       ///< d(scale)/dT.
};
using JunctionAt = BasicJunctionAt<double>;

/// I(V) = I_S (exp(V / (n kT/q)) - 1). Never throws.
[[nodiscard]] JunctionTangent evaluate_junction(const JunctionAt& at, double voltage_v) noexcept;

/// s(T) = (T/T0)^p exp((q Wg / k)(1/T0 - 1/T)) to the power 1/m, and its slope by T.
/// Source: [GummelPoon1970]. Requires temperatures > 0, ideality > 0.
[[nodiscard]] Scaled saturation_factor(double temperature_k,
                                       double measured_at_k,
                                       double temperature_power,
                                       double band_gap_ev,
                                       double ideality) noexcept;

/// The voltage to evaluate a junction at when Newton asks for `proposed_v` and the last evaluation
/// was at `last_v`: the one where the exponential carries the current that the last tangent
/// predicted, last + scale ln(1 + dv/scale); from far below, the step starts 20 scale voltages
/// below `critical_v`. Downwards a conducting junction lets go by last - 1.5 scale ln(1 + dv/(1.5
/// scale)). Returns `proposed_v` unchanged where the step is harmless. `critical_v` is where the
/// curve bends most: scale ln(scale / (sqrt(2) I_S)).
[[nodiscard]] double limited_junction_voltage(double proposed_v,
                                              double last_v,
                                              double scale_v,
                                              double critical_v) noexcept;

[[nodiscard]] double critical_voltage(double saturation_a, double scale_v) noexcept;

}  // namespace idlepoint::devices
