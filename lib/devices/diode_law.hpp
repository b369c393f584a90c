// The diode's law for any Real of devices/elementary.hpp; conventions in devices/diode.hpp.
#pragma once

#include "devices/diode.hpp"
#include "devices/junction_law.hpp"

namespace idlepoint::devices::law {

/// Reverse current of the breakdown, Iz [exp(-(V + Uz)/s) - exp(-Uz/s)], positive backwards.
template <class Real>
[[nodiscard]] inline BasicJunctionTangent<Real> breakdown_current(const BasicDiodeAt<Real>& at,
                                                                  const Real& junction_v) noexcept {
  const Real per_scale = 1.0 / at.zener_scale_v;
  const Real x_at_rest = -at.zener_v * per_scale;
  const Real over = -junction_v * per_scale;
  const Avalanche<Real> a = avalanche(over, x_at_rest);
  // d/dT of slope * x less the same at rest, written so that it is small where the voltage is.
  const Real moved = (a.slope - a.slope_at_rest) * x_at_rest + a.slope * over;
  const Real by_zener_v = (a.slope - a.slope_at_rest) * at.zener_v_per_k;
  return {.current_a = at.zener_test_a * a.value,
          .conductance_s = -at.zener_test_a * a.slope * per_scale,
          .slope_a_per_k =
              -at.zener_test_a * per_scale * (by_zener_v + moved * at.zener_scale_v_per_k)};
}

template <class Real>
[[nodiscard]] inline BasicJunctionTangent<Real> evaluate_diode(const BasicDiodeAt<Real>& at,
                                                               const Real& junction_v) noexcept {
  BasicJunctionTangent<Real> total = evaluate_junction(at.forward, junction_v);
  if (!at.has_zener) return total;
  const BasicJunctionTangent<Real> breakdown = breakdown_current(at, junction_v);
  total.current_a = total.current_a - breakdown.current_a;
  total.conductance_s = total.conductance_s - breakdown.conductance_s;
  total.slope_a_per_k = total.slope_a_per_k - breakdown.slope_a_per_k;
  return total;
}

template <class Real>
[[nodiscard]] inline BasicDiodeAt<Real> diode_at(const BasicDiodeData<Real>& data,
                                                 const Real& temperature_k) noexcept {
  const BasicScaled<Real> factor = saturation_factor<Real>(
      temperature_k, {data.measured_at_k, data.temperature_power, data.band_gap_ev}, data.ideality);
  const Real thermal_v = temperature_k * values::thermal_voltage_v(1.0);
  const Real thermal_v_per_k(values::thermal_voltage_v(1.0));
  BasicDiodeAt<Real> at{};
  at.forward = {.saturation_a = data.saturation_current_a * factor.value,
                .saturation_a_per_k = data.saturation_current_a * factor.per_k,
                .scale_v = data.ideality * thermal_v,
                .scale_v_per_k = data.ideality * thermal_v_per_k};
  if (data.zener_voltage_v) {
    const Real rated_v = *data.zener_voltage_v;
    at.has_zener = true;
    at.zener_v_per_k = rated_v * data.zener_tempco_per_k;
    at.zener_v = rated_v + at.zener_v_per_k * (temperature_k - data.measured_at_k);
    at.zener_test_a = data.zener_test_current_a;
    at.zener_scale_v = data.zener_ideality * thermal_v;
    at.zener_scale_v_per_k = data.zener_ideality * thermal_v_per_k;
  }
  return at;
}

}  // namespace idlepoint::devices::law
