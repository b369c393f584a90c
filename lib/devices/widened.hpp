// A law's plain numbers in every lane of a wider Real.
//
// Used by the lanes of a batch, whose nominal numbers are all the same before the draws move some.
#pragma once

#include "devices/bipolar.hpp"
#include "devices/diode.hpp"
#include "devices/fet.hpp"

namespace idlepoint::devices::law {

template <class Real, class From>
[[nodiscard]] inline BasicScaled<Real> widened(const BasicScaled<From>& from) noexcept {
  return {Real(from.value), Real(from.per_k)};
}

template <class Real, class From>
[[nodiscard]] inline std::optional<Real> widened(const std::optional<From>& from) noexcept {
  return from ? std::optional<Real>(Real(*from)) : std::nullopt;
}

template <class Real, class From>
[[nodiscard]] inline BasicJunctionAt<Real> widened(const BasicJunctionAt<From>& from) noexcept {
  return {Real(from.saturation_a),
          Real(from.saturation_a_per_k),
          Real(from.scale_v),
          Real(from.scale_v_per_k)};
}

template <class Real, class From>
[[nodiscard]] inline BasicDiodeAt<Real> widened(const BasicDiodeAt<From>& from) noexcept {
  return {.forward = widened<Real>(from.forward),
          .has_zener = from.has_zener,
          .zener_v = Real(from.zener_v),
          .zener_v_per_k = Real(from.zener_v_per_k),
          .zener_test_a = Real(from.zener_test_a),
          .zener_scale_v = Real(from.zener_scale_v),
          .zener_scale_v_per_k = Real(from.zener_scale_v_per_k)};
}

template <class Real, class From>
[[nodiscard]] inline BasicFetAt<Real> widened(const BasicFetAt<From>& from) noexcept {
  return {.is_junction = from.is_junction,
          .threshold_v = Real(from.threshold_v),
          .threshold_v_per_k = Real(from.threshold_v_per_k),
          .factor_a_per_v2 = Real(from.factor_a_per_v2),
          .factor_per_k = Real(from.factor_per_k),
          .slope_factor = Real(from.slope_factor),
          .drain_slope_per_v = Real(from.drain_slope_per_v),
          .thermal_v = Real(from.thermal_v),
          .thermal_v_per_k = Real(from.thermal_v_per_k),
          .diode = widened<Real>(from.diode),
          .has_diode = from.has_diode};
}

template <class Real, class From>
[[nodiscard]] inline BasicBipolarAt<Real> widened(const BasicBipolarAt<From>& from) noexcept {
  return {.saturation_a = widened<Real>(from.saturation_a),
          .gain = widened<Real>(from.gain),
          .inverse_gain = widened<Real>(from.inverse_gain),
          .thermal_v = widened<Real>(from.thermal_v),
          .ideality = Real(from.ideality),
          .inverse_ideality = Real(from.inverse_ideality),
          .per_early_v = Real(from.per_early_v),
          .per_inverse_early_v = Real(from.per_inverse_early_v),
          .per_knee_a = Real(from.per_knee_a),
          .per_inverse_knee_a = Real(from.per_inverse_knee_a),
          .recombination_a = widened<Real>(from.recombination_a),
          .recombination_ideality = Real(from.recombination_ideality),
          .collector_recombination_a = widened<Real>(from.collector_recombination_a),
          .collector_recombination_ideality = Real(from.collector_recombination_ideality),
          .cutoff_a = widened<Real>(from.cutoff_a),
          .has_breakdown = from.has_breakdown,
          .breakdown_v = Real(from.breakdown_v)};
}

/// What a types file says, in every lane.
template <class Real, class From>
[[nodiscard]] inline BasicBipolarData<Real> widened(const BasicBipolarData<From>& from) noexcept {
  return {.saturation_current_a = Real(from.saturation_current_a),
          .gain = Real(from.gain),
          .inverse_gain = Real(from.inverse_gain),
          .ideality = Real(from.ideality),
          .inverse_ideality = Real(from.inverse_ideality),
          .early_voltage_v = widened<Real>(from.early_voltage_v),
          .inverse_early_voltage_v = widened<Real>(from.inverse_early_voltage_v),
          .knee_current_a = widened<Real>(from.knee_current_a),
          .inverse_knee_current_a = widened<Real>(from.inverse_knee_current_a),
          .recombination_current_a = Real(from.recombination_current_a),
          .recombination_ideality = Real(from.recombination_ideality),
          .collector_recombination_current_a = Real(from.collector_recombination_current_a),
          .collector_recombination_ideality = Real(from.collector_recombination_ideality),
          .cutoff_current_a = Real(from.cutoff_current_a),
          .cutoff_doubles_every_k = Real(from.cutoff_doubles_every_k),
          .base_resistance_ohm = Real(from.base_resistance_ohm),
          .collector_resistance_ohm = Real(from.collector_resistance_ohm),
          .emitter_resistance_ohm = Real(from.emitter_resistance_ohm),
          .emitter_base_breakdown_voltage_v = widened<Real>(from.emitter_base_breakdown_voltage_v),
          .gain_temperature_power = Real(from.gain_temperature_power),
          .temperature_power = Real(from.temperature_power),
          .band_gap_ev = Real(from.band_gap_ev),
          .measured_at_k = Real(from.measured_at_k)};
}

template <class Real, class From>
[[nodiscard]] inline BasicDiodeData<Real> widened(const BasicDiodeData<From>& from) noexcept {
  return {.saturation_current_a = Real(from.saturation_current_a),
          .ideality = Real(from.ideality),
          .series_resistance_ohm = Real(from.series_resistance_ohm),
          .zener_voltage_v = widened<Real>(from.zener_voltage_v),
          .zener_test_current_a = Real(from.zener_test_current_a),
          .zener_ideality = Real(from.zener_ideality),
          .zener_tempco_per_k = Real(from.zener_tempco_per_k),
          .temperature_power = Real(from.temperature_power),
          .band_gap_ev = Real(from.band_gap_ev),
          .measured_at_k = Real(from.measured_at_k)};
}

template <class Real, class From>
[[nodiscard]] inline BasicFetData<Real> widened(const BasicFetData<From>& from) noexcept {
  return {.is_junction = from.is_junction,
          .threshold_voltage_v = Real(from.threshold_voltage_v),
          .current_factor_a_per_v2 = Real(from.current_factor_a_per_v2),
          .slope_factor = Real(from.slope_factor),
          .drain_slope_per_v = Real(from.drain_slope_per_v),
          .source_resistance_ohm = Real(from.source_resistance_ohm),
          .drain_resistance_ohm = Real(from.drain_resistance_ohm),
          .threshold_tempco_v_per_k = Real(from.threshold_tempco_v_per_k),
          .current_factor_temperature_power = Real(from.current_factor_temperature_power),
          .gate_leakage_current_a = Real(from.gate_leakage_current_a),
          .body_diode_a = Real(from.body_diode_a),
          .temperature_power = Real(from.temperature_power),
          .band_gap_ev = Real(from.band_gap_ev),
          .measured_at_k = Real(from.measured_at_k)};
}

}  // namespace idlepoint::devices::law
