// Lamp, feed, thermistor and resistor for any Real of devices/elementary.hpp; conventions and
// sources in devices/passive.hpp.
#pragma once

#include "devices/elementary.hpp"
#include "devices/passive.hpp"
#include "values/constants.hpp"

namespace idlepoint::devices::law {

inline constexpr double lamp_exponent = 0.225;    ///< Half of 0.45: R goes as V^0.45.
inline constexpr double lamp_cold_share = 0.003;  ///< Of the rated voltage: the smooth cold end.
inline constexpr double feed_scale_v = 0.05;      ///< Over which a feed loses its current.

template <class Real>
[[nodiscard]] inline BasicLampTangent<Real> evaluate_lamp(const Real& rated_v,
                                                          const Real& rated_w,
                                                          const Real& voltage_v) noexcept {
  const Real share = voltage_v / rated_v;
  const Real smooth = share * share + lamp_cold_share * lamp_cold_share;
  const Real hot_s = rated_w / (rated_v * rated_v);
  const Real chord_s = hot_s * power(smooth, -lamp_exponent);
  return {.current_a = voltage_v * chord_s,
          .conductance_s = chord_s * (1.0 - 2.0 * lamp_exponent * share * share / smooth)};
}

template <class Real>
[[nodiscard]] inline BasicFeedTangent<Real> evaluate_feed(const Real& value_a,
                                                          double compliance_v,
                                                          const Real& voltage_v) noexcept {
  const Real x = (voltage_v - compliance_v) / feed_scale_v;
  // The exponential of minus the magnitude cannot overflow; both branches share it.
  const Real small = exponential(-magnitude(x));
  const Real larger = 1.0 / (1.0 + small);
  const Real smaller = small * larger;
  return {.current_a = value_a * select(x >= 0.0, larger, smaller),
          .conductance_s = value_a * larger * smaller / feed_scale_v};
}

template <class Real>
[[nodiscard]] inline BasicResistanceAt<Real> thermistor_resistance(
    const Real& at_25c_ohm, const Real& beta_k, const Real& temperature_k) noexcept {
  const Real ohm =
      at_25c_ohm *
      exponential(beta_k * (1.0 / temperature_k - 1.0 / values::reference_temperature_k));
  return {.ohm = ohm, .ohm_per_k = -ohm * beta_k / (temperature_k * temperature_k)};
}

}  // namespace idlepoint::devices::law
