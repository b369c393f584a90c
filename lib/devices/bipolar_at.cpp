// A transistor's numbers at a temperature: how saturation, gain, recombination and cut-off currents
// move, with their slopes. Called once a temperature, not once a voltage.
#include <cmath>
#include <numbers>

#include "devices/bipolar.hpp"
#include "values/constants.hpp"

namespace idlepoint::devices {

namespace {

/// A current that follows a junction factor and falls with the gain: I2 and I3.
Scaled recombination_at(const BipolarData& data,
                        double current_a,
                        double ideality,
                        double temperature_k,
                        double gain_factor) noexcept {
  if (current_a == 0.0) return {};
  const TemperatureFactor s = saturation_factor(
      temperature_k, data.measured_at_k, data.temperature_power, data.band_gap_ev, ideality);
  const double value = current_a * s.value / gain_factor;
  return {value,
          current_a * s.slope_per_k / gain_factor -
              value * data.gain_temperature_power / temperature_k};
}

Scaled cutoff_at(const BipolarData& data, double temperature_k) noexcept {
  if (data.cutoff_current_a == 0.0) return {};
  const double doublings = (temperature_k - data.measured_at_k) / data.cutoff_doubles_every_k;
  const double value = data.cutoff_current_a * std::exp2(doublings);
  return {value, value * std::numbers::ln2 / data.cutoff_doubles_every_k};
}

double reciprocal(const std::optional<double>& value) noexcept {
  return value ? 1.0 / *value : 0.0;
}

}  // namespace

BipolarAt bipolar_at(const BipolarData& data, double temperature_k) noexcept {
  const TemperatureFactor s = saturation_factor(
      temperature_k, data.measured_at_k, data.temperature_power, data.band_gap_ev, 1.0);
  const double gain_factor =
      std::pow(temperature_k / data.measured_at_k, data.gain_temperature_power);
  const double gain_factor_per_k = gain_factor * data.gain_temperature_power / temperature_k;
  BipolarAt at{};
  at.saturation_a = {data.saturation_current_a * s.value,
                     data.saturation_current_a * s.slope_per_k};
  at.gain = {data.gain * gain_factor, data.gain * gain_factor_per_k};
  at.inverse_gain = {data.inverse_gain * gain_factor, data.inverse_gain * gain_factor_per_k};
  at.thermal_v = {values::thermal_voltage_v(temperature_k), values::thermal_voltage_v(1.0)};
  at.ideality = data.ideality;
  at.inverse_ideality = data.inverse_ideality;
  at.per_early_v = reciprocal(data.early_voltage_v);
  at.per_inverse_early_v = reciprocal(data.inverse_early_voltage_v);
  at.per_knee_a = reciprocal(data.knee_current_a);
  at.per_inverse_knee_a = reciprocal(data.inverse_knee_current_a);
  at.recombination_ideality = data.recombination_ideality;
  at.recombination_a = recombination_at(
      data, data.recombination_current_a, data.recombination_ideality, temperature_k, gain_factor);
  at.collector_recombination_ideality = data.collector_recombination_ideality;
  at.collector_recombination_a = recombination_at(data,
                                                  data.collector_recombination_current_a,
                                                  data.collector_recombination_ideality,
                                                  temperature_k,
                                                  gain_factor);
  at.cutoff_a = cutoff_at(data, temperature_k);
  at.has_breakdown = data.emitter_base_breakdown_voltage_v.has_value();
  at.breakdown_v = data.emitter_base_breakdown_voltage_v.value_or(0.0);
  return at;
}

}  // namespace idlepoint::devices
