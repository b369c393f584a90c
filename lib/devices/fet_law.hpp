// The drain law for any Real of devices/elementary.hpp; conventions and source in devices/fet.hpp.
#pragma once

#include "devices/fet.hpp"
#include "devices/junction_law.hpp"

namespace idlepoint::devices::law {

template <class Real>
[[nodiscard]] inline BasicFetAt<Real> fet_at(const BasicFetData<Real>& data,
                                             const Real& temperature_k) noexcept {
  const Real over_k = temperature_k - data.measured_at_k;
  const Real thermal_v = temperature_k * values::thermal_voltage_v(1.0);
  const Real thermal_v_per_k(values::thermal_voltage_v(1.0));
  const Real factor =
      data.current_factor_a_per_v2 *
      power(Real(temperature_k / data.measured_at_k), Real(-data.current_factor_temperature_power));
  BasicFetAt<Real> at{};
  at.is_junction = data.is_junction;
  at.threshold_v = data.threshold_voltage_v + data.threshold_tempco_v_per_k * over_k;
  at.threshold_v_per_k = data.threshold_tempco_v_per_k;
  at.factor_a_per_v2 = factor;
  at.factor_per_k = -factor * data.current_factor_temperature_power / temperature_k;
  at.slope_factor = data.slope_factor;
  at.drain_slope_per_v = data.drain_slope_per_v;
  at.thermal_v = thermal_v;
  at.thermal_v_per_k = thermal_v_per_k;
  const Real diode_a = data.is_junction ? data.gate_leakage_current_a : data.body_diode_a;
  const BasicScaled<Real> s = saturation_factor<Real>(
      temperature_k, {data.measured_at_k, data.temperature_power, data.band_gap_ev}, Real(1.0));
  at.diode = {.saturation_a = diode_a * s.value,
              .saturation_a_per_k = diode_a * s.per_k,
              .scale_v = thermal_v,
              .scale_v_per_k = thermal_v_per_k};
  at.has_diode = any(diode_a > 0.0);
  return at;
}

template <class Real>
[[nodiscard]] inline BasicFetTangent<Real> evaluate_fet(const BasicFetAt<Real>& at,
                                                        const Real& ugs_v,
                                                        const Real& uds_v) noexcept {
  const Real n = at.slope_factor;
  const Real per_scale = 1.0 / (2.0 * n * at.thermal_v);
  const Real over_v = ugs_v - at.threshold_v;
  const Real z_source = over_v * per_scale;
  const Real z_drain = (over_v - n * uds_v) * per_scale;
  const SoftPlus<Real> source = soft_plus(z_source);
  const SoftPlus<Real> drain = soft_plus(z_drain);
  // The difference of squares as a product keeps the digits at small drain voltages.
  const Real difference = (source.value - drain.value) * (source.value + drain.value);
  const Real source_slope = 2.0 * source.value * source.slope;  // by z
  const Real drain_slope = 2.0 * drain.value * drain.slope;

  const Real scale_a = 2.0 * n * at.thermal_v * at.thermal_v * at.factor_a_per_v2;
  const Real lift = 1.0 + at.drain_slope_per_v * magnitude(uds_v);
  const Real lift_per_v = select(uds_v < 0.0, -at.drain_slope_per_v, at.drain_slope_per_v);
  const Real log_u_per_k = at.thermal_v_per_k * 2.0 * n * per_scale;
  // z falls as U rises and as the threshold rises.
  const Real threshold_per_k = at.threshold_v_per_k * per_scale;
  const Real difference_per_k = drain_slope * (z_drain * log_u_per_k + threshold_per_k) -
                                source_slope * (z_source * log_u_per_k + threshold_per_k);
  const Real scale_a_per_k =
      2.0 * scale_a * log_u_per_k + 2.0 * n * at.thermal_v * at.thermal_v * at.factor_per_k;
  const Real lifted_a = scale_a * lift;
  return {.drain_a = lifted_a * difference,
          .by_ugs_s = lifted_a * (source_slope - drain_slope) * per_scale,
          .by_uds_s = lifted_a * drain_slope * n * per_scale + scale_a * difference * lift_per_v,
          .drain_a_per_k = lift * (scale_a_per_k * difference + scale_a * difference_per_k),
          .forward_a = lifted_a * source.value * source.value,
          .reverse_a = lifted_a * drain.value * drain.value};
}

}  // namespace idlepoint::devices::law
