#include "devices/fet.hpp"

#include <cmath>

#include "values/constants.hpp"

namespace idlepoint::devices {

namespace {

/// ln(1 + exp(z)) and its slope, from one exponential that cannot overflow.
struct SoftPlus {
  double value;
  double slope;
};

SoftPlus soft_plus(double z) noexcept {
  const double small = std::exp(-std::abs(z));
  const double larger = 1.0 / (1.0 + small);
  const double bend = std::log1p(small);
  return z > 0.0 ? SoftPlus{z + bend, larger} : SoftPlus{bend, small * larger};
}

}  // namespace

FetAt fet_at(const FetData& data, double temperature_k) noexcept {
  const double over_k = temperature_k - data.measured_at_k;
  const double thermal_v = values::thermal_voltage_v(temperature_k);
  const double thermal_v_per_k = values::thermal_voltage_v(1.0);
  const double factor =
      data.current_factor_a_per_v2 *
      std::pow(temperature_k / data.measured_at_k, -data.current_factor_temperature_power);
  FetAt at{};
  at.is_junction = data.is_junction;
  at.threshold_v = data.threshold_voltage_v + data.threshold_tempco_v_per_k * over_k;
  at.threshold_v_per_k = data.threshold_tempco_v_per_k;
  at.factor_a_per_v2 = factor;
  at.factor_per_k = -factor * data.current_factor_temperature_power / temperature_k;
  at.slope_factor = data.slope_factor;
  at.drain_slope_per_v = data.drain_slope_per_v;
  at.thermal_v = thermal_v;
  at.thermal_v_per_k = thermal_v_per_k;
  const double diode_a = data.is_junction ? data.gate_leakage_current_a : data.body_diode_a;
  const TemperatureFactor s = saturation_factor(
      temperature_k, data.measured_at_k, data.temperature_power, data.band_gap_ev, 1.0);
  at.diode = {.saturation_a = diode_a * s.value,
              .saturation_a_per_k = diode_a * s.slope_per_k,
              .scale_v = thermal_v,
              .scale_v_per_k = thermal_v_per_k};
  at.has_diode = diode_a > 0.0;
  return at;
}

FetTangent evaluate_fet(const FetAt& at, double ugs_v, double uds_v) noexcept {
  const double n = at.slope_factor;
  const double per_scale = 1.0 / (2.0 * n * at.thermal_v);
  const double over_v = ugs_v - at.threshold_v;
  const double z_source = over_v * per_scale;
  const double z_drain = (over_v - n * uds_v) * per_scale;
  const SoftPlus source = soft_plus(z_source);
  const SoftPlus drain = soft_plus(z_drain);
  // The difference of squares as a product keeps the digits at small drain voltages.
  const double difference = (source.value - drain.value) * (source.value + drain.value);
  const double source_slope = 2.0 * source.value * source.slope;  // by z
  const double drain_slope = 2.0 * drain.value * drain.slope;

  const double scale_a = 2.0 * n * at.thermal_v * at.thermal_v * at.factor_a_per_v2;
  const double lift = 1.0 + at.drain_slope_per_v * std::abs(uds_v);
  const double lift_per_v = std::copysign(at.drain_slope_per_v, uds_v);
  const double log_u_per_k = at.thermal_v_per_k * 2.0 * n * per_scale;
  // z falls as U rises and as the threshold rises.
  const double threshold_per_k = at.threshold_v_per_k * per_scale;
  const double difference_per_k = drain_slope * (z_drain * log_u_per_k + threshold_per_k) -
                                  source_slope * (z_source * log_u_per_k + threshold_per_k);
  const double scale_a_per_k =
      2.0 * scale_a * log_u_per_k + 2.0 * n * at.thermal_v * at.thermal_v * at.factor_per_k;
  const double lifted_a = scale_a * lift;
  return {.drain_a = lifted_a * difference,
          .by_ugs_s = lifted_a * (source_slope - drain_slope) * per_scale,
          .by_uds_s = lifted_a * drain_slope * n * per_scale + scale_a * difference * lift_per_v,
          .drain_a_per_k = lift * (scale_a_per_k * difference + scale_a * difference_per_k),
          .forward_a = lifted_a * source.value * source.value,
          .reverse_a = lifted_a * drain.value * drain.value};
}

double current_factor_from_idss(double idss_a, double threshold_v) noexcept {
  return 2.0 * idss_a / (threshold_v * threshold_v);
}

}  // namespace idlepoint::devices
