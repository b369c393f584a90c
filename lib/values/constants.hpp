// Physical constants, each written once.
//
// Used by every device law and by the tests' oracles through their own copies.
// Source: [SI2019] in docs/sources.md; both exact.
#pragma once

namespace idlepoint::values {

inline constexpr double boltzmann_j_per_k = 1.380649e-23;          ///< k, exact since 2019.
inline constexpr double elementary_charge_c = 1.602176634e-19;     ///< q, exact since 2019.
inline constexpr double zero_celsius_k = 273.15;                   ///< 0 C in kelvin.
inline constexpr double reference_temperature_k = 298.15;          ///< 25 C: data sheets' usual T0.

/// Thermal voltage U = kT/q in volts: 25.6926 mV at 25 C. `temperature_k` > 0.
[[nodiscard]] constexpr double thermal_voltage_v(double temperature_k) noexcept {
  return boltzmann_j_per_k / elementary_charge_c * temperature_k;
}

[[nodiscard]] constexpr double kelvin_from_celsius(double celsius) noexcept {
  return celsius + zero_celsius_k;
}

[[nodiscard]] constexpr double celsius_from_kelvin(double kelvin) noexcept {
  return kelvin - zero_celsius_k;
}

}  // namespace idlepoint::values
