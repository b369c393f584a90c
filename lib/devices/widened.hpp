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

/// Calls `visit(to's field, from's field)` for every number of a type's data.
template <class Real, class From, class Visit>
void for_each_field(BasicBipolarData<Real>& to, const BasicBipolarData<From>& from, Visit visit) {
  visit(to.saturation_current_a, from.saturation_current_a);
  visit(to.gain, from.gain);
  visit(to.inverse_gain, from.inverse_gain);
  visit(to.ideality, from.ideality);
  visit(to.inverse_ideality, from.inverse_ideality);
  visit(to.early_voltage_v, from.early_voltage_v);
  visit(to.inverse_early_voltage_v, from.inverse_early_voltage_v);
  visit(to.knee_current_a, from.knee_current_a);
  visit(to.inverse_knee_current_a, from.inverse_knee_current_a);
  visit(to.recombination_current_a, from.recombination_current_a);
  visit(to.recombination_ideality, from.recombination_ideality);
  visit(to.collector_recombination_current_a, from.collector_recombination_current_a);
  visit(to.collector_recombination_ideality, from.collector_recombination_ideality);
  visit(to.cutoff_current_a, from.cutoff_current_a);
  visit(to.cutoff_doubles_every_k, from.cutoff_doubles_every_k);
  visit(to.base_resistance_ohm, from.base_resistance_ohm);
  visit(to.collector_resistance_ohm, from.collector_resistance_ohm);
  visit(to.emitter_resistance_ohm, from.emitter_resistance_ohm);
  visit(to.emitter_base_breakdown_voltage_v, from.emitter_base_breakdown_voltage_v);
  visit(to.gain_temperature_power, from.gain_temperature_power);
  visit(to.temperature_power, from.temperature_power);
  visit(to.band_gap_ev, from.band_gap_ev);
  visit(to.measured_at_k, from.measured_at_k);
}

template <class Real, class From, class Visit>
void for_each_field(BasicDiodeData<Real>& to, const BasicDiodeData<From>& from, Visit visit) {
  visit(to.saturation_current_a, from.saturation_current_a);
  visit(to.ideality, from.ideality);
  visit(to.series_resistance_ohm, from.series_resistance_ohm);
  visit(to.zener_voltage_v, from.zener_voltage_v);
  visit(to.zener_test_current_a, from.zener_test_current_a);
  visit(to.zener_ideality, from.zener_ideality);
  visit(to.zener_tempco_per_k, from.zener_tempco_per_k);
  visit(to.temperature_power, from.temperature_power);
  visit(to.band_gap_ev, from.band_gap_ev);
  visit(to.measured_at_k, from.measured_at_k);
}

template <class Real, class From, class Visit>
void for_each_field(BasicFetData<Real>& to, const BasicFetData<From>& from, Visit visit) {
  visit(to.threshold_voltage_v, from.threshold_voltage_v);
  visit(to.current_factor_a_per_v2, from.current_factor_a_per_v2);
  visit(to.slope_factor, from.slope_factor);
  visit(to.drain_slope_per_v, from.drain_slope_per_v);
  visit(to.source_resistance_ohm, from.source_resistance_ohm);
  visit(to.drain_resistance_ohm, from.drain_resistance_ohm);
  visit(to.threshold_tempco_v_per_k, from.threshold_tempco_v_per_k);
  visit(to.current_factor_temperature_power, from.current_factor_temperature_power);
  visit(to.gate_leakage_current_a, from.gate_leakage_current_a);
  visit(to.body_diode_a, from.body_diode_a);
  visit(to.temperature_power, from.temperature_power);
  visit(to.band_gap_ev, from.band_gap_ev);
  visit(to.measured_at_k, from.measured_at_k);
}

/// One number, or an optional one.
template <class Real>
[[nodiscard]] inline Real widened(double from) noexcept {
  return Real(from);
}

/// What a types file says, in every lane.
template <class Real>
[[nodiscard]] inline BasicBipolarData<Real> widened(const BipolarData& from) noexcept {
  BasicBipolarData<Real> to;
  for_each_field(to, from, [](auto& field, const auto& plain) { field = widened<Real>(plain); });
  return to;
}

template <class Real>
[[nodiscard]] inline BasicDiodeData<Real> widened(const DiodeData& from) noexcept {
  BasicDiodeData<Real> to;
  for_each_field(to, from, [](auto& field, const auto& plain) { field = widened<Real>(plain); });
  return to;
}

template <class Real>
[[nodiscard]] inline BasicFetData<Real> widened(const FetData& from) noexcept {
  BasicFetData<Real> to;
  to.is_junction = from.is_junction;
  for_each_field(to, from, [](auto& field, const auto& plain) { field = widened<Real>(plain); });
  return to;
}

}  // namespace idlepoint::devices::law
