// Current through a p-n junction, its slope, and the steps Newton may take along it.
//
// Every device that contains a junction (diode, bipolar transistor, gate and body diode) takes its
// exponential from here, so the guard against overflow is written, documented and tested once.
// Source: [Shockley1949] in docs/sources.md.
#pragma once

namespace idlepoint::devices {

/// exp(x) and its slope, continued along its own tangent above x = 80, so that value and slope stay
/// finite and continuous for any argument Newton may try.
struct GuardedExponential {
  double value;
  double slope;
};

/// Above this argument a solution is an artefact of the guard; the caller must refuse it.
inline constexpr double largest_exponent = 80.0;

[[nodiscard]] GuardedExponential guarded_exponential(double x) noexcept;

/// All that Newton's method needs of a junction at one voltage and temperature.
struct JunctionTangent {
  double current_a;      ///< Positive from anode to cathode.
  double conductance_s;  ///< d(current)/d(voltage). Underflows to 0, never below.
  double slope_a_per_k;  ///< d(current)/d(temperature), saturation current and kT/q both following.
};

/// A junction's numbers at one temperature, with their slopes by temperature.
struct JunctionAt {
  double saturation_a;        ///< >= 0.
  double saturation_a_per_k;  ///< d(saturation)/dT.
  double scale_v;             ///< n kT/q, > 0.
  double scale_v_per_k;       ///< d(scale)/dT.
};

/// I(V) = I_S (exp(V / (n kT/q)) - 1). Never throws.
[[nodiscard]] JunctionTangent evaluate_junction(const JunctionAt& at, double voltage_v) noexcept;

/// s(T) = (T/T0)^p exp((q Wg / k)(1/T0 - 1/T)) to the power 1/m, and its slope by T.
/// Source: [GummelPoon1970]. Requires temperatures > 0, ideality > 0.
struct TemperatureFactor {
  double value;
  double slope_per_k;
};
[[nodiscard]] TemperatureFactor saturation_factor(double temperature_k,
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
