#include "devices/diode.hpp"

#include <cmath>

#include "devices/exponential.hpp"
#include "values/constants.hpp"

namespace idlepoint::devices {

namespace {

/// Reverse current of the breakdown, Iz [exp(-(V + Uz)/s) - exp(-Uz/s)], positive backwards.
JunctionTangent breakdown_current(const DiodeAt& at, double junction_v) noexcept {
  const double per_scale = 1.0 / at.zener_scale_v;
  const double x_at_rest = -at.zener_v * per_scale;
  const double over = -junction_v * per_scale;
  const Avalanche a = avalanche(over, x_at_rest);
  // d/dT of slope * x less the same at rest, written so that it is small where the voltage is.
  const double moved = (a.slope - a.slope_at_rest) * x_at_rest + a.slope * over;
  const double by_zener_v = (a.slope - a.slope_at_rest) * at.zener_v_per_k;
  return {.current_a = at.zener_test_a * a.value,
          .conductance_s = -at.zener_test_a * a.slope * per_scale,
          .slope_a_per_k =
              -at.zener_test_a * per_scale * (by_zener_v + moved * at.zener_scale_v_per_k)};
}

}  // namespace

DiodeAt diode_at(const DiodeData& data, double temperature_k) noexcept {
  const TemperatureFactor factor = saturation_factor(
      temperature_k, data.measured_at_k, data.temperature_power, data.band_gap_ev, data.ideality);
  const double thermal_v = values::thermal_voltage_v(temperature_k);
  const double thermal_v_per_k = values::thermal_voltage_v(1.0);
  DiodeAt at{};
  at.forward = {.saturation_a = data.saturation_current_a * factor.value,
                .saturation_a_per_k = data.saturation_current_a * factor.slope_per_k,
                .scale_v = data.ideality * thermal_v,
                .scale_v_per_k = data.ideality * thermal_v_per_k};
  if (data.zener_voltage_v) {
    const double rated_v = *data.zener_voltage_v;
    at.has_zener = true;
    at.zener_v_per_k = rated_v * data.zener_tempco_per_k;
    at.zener_v = rated_v + at.zener_v_per_k * (temperature_k - data.measured_at_k);
    at.zener_test_a = data.zener_test_current_a;
    at.zener_scale_v = data.zener_ideality * thermal_v;
    at.zener_scale_v_per_k = data.zener_ideality * thermal_v_per_k;
  }
  return at;
}

JunctionTangent evaluate_diode(const DiodeAt& at, double junction_v) noexcept {
  JunctionTangent total = evaluate_junction(at.forward, junction_v);
  if (!at.has_zener) return total;
  const JunctionTangent breakdown = breakdown_current(at, junction_v);
  total.current_a -= breakdown.current_a;
  total.conductance_s -= breakdown.conductance_s;
  total.slope_a_per_k -= breakdown.slope_a_per_k;
  return total;
}

double saturation_current_from_vf(const DiodeData& data, double vf_v, double current_a) noexcept {
  const double junction_v = vf_v - current_a * data.series_resistance_ohm;
  if (!(junction_v > 0.0)) return 0.0;
  const DiodeAt at = diode_at(data, data.measured_at_k);
  const double breakdown_a = at.has_zener ? breakdown_current(at, junction_v).current_a : 0.0;
  return (current_a + breakdown_a) / growth(junction_v / at.forward.scale_v).less_one;
}

}  // namespace idlepoint::devices
