#include "laws/law_by_the_book.hpp"

#include <cmath>

namespace idlepoint::laws {

namespace {

constexpr long double k_j_per_k = 1.380649e-23L;  // SI 2019, exact
constexpr long double q_c = 1.602176634e-19L;     // SI 2019, exact
constexpr long double breakdown_test_a = 10e-6L;

long double junction(long double saturation_a, long double voltage_v, long double scale_v) {
  return saturation_a * std::expm1(voltage_v / scale_v);
}

long double squared_softplus(long double u, long double n, long double thermal_v) {
  const long double z = u / (2 * n * thermal_v);
  const long double s = z > 40 ? z + std::exp(-z) : std::log1p(std::exp(z));
  return s * s;
}

}  // namespace

long double thermal_voltage_by_the_book(long double temperature_k) {
  return k_j_per_k * temperature_k / q_c;
}

long double saturation_factor_by_the_book(long double temperature_k,
                                          long double measured_at_k,
                                          long double power,
                                          long double band_gap_ev,
                                          long double ideality) {
  const long double s =
      std::pow(temperature_k / measured_at_k, power) *
      std::exp(q_c * band_gap_ev / k_j_per_k * (1 / measured_at_k - 1 / temperature_k));
  return std::pow(s, 1 / ideality);
}

BipolarCurrents bipolar_by_the_book(const devices::BipolarData& data,
                                    long double temperature_k,
                                    long double ube_v,
                                    long double ubc_v) {
  const long double u = thermal_voltage_by_the_book(temperature_k);
  const long double t0 = data.measured_at_k;
  const auto s = [&](long double ideality) {
    return saturation_factor_by_the_book(
        temperature_k, t0, data.temperature_power, data.band_gap_ev, ideality);
  };
  const long double gain_factor =
      std::pow(temperature_k / t0, static_cast<long double>(data.gain_temperature_power));
  const long double is = data.saturation_current_a * s(1);
  const long double i2 =
      data.recombination_current_a / gain_factor * s(data.recombination_ideality);
  const long double i3 = data.collector_recombination_current_a / gain_factor *
                         s(data.collector_recombination_ideality);
  const long double ico =
      data.cutoff_current_a * std::exp2((temperature_k - t0) / data.cutoff_doubles_every_k);

  const long double f = junction(is, ube_v, data.ideality * u);
  const long double r = junction(is, ubc_v, data.inverse_ideality * u);
  long double w = 1;
  if (data.early_voltage_v) w -= ubc_v / *data.early_voltage_v;
  if (data.inverse_early_voltage_v) w -= ube_v / *data.inverse_early_voltage_v;
  long double h = 0;
  if (data.knee_current_a) h += f / *data.knee_current_a;
  if (data.inverse_knee_current_a) h += r / *data.inverse_knee_current_a;
  const long double charge = (1 + std::sqrt(1 + 4 * h)) / (2 * w);

  long double ibe =
      f / (data.gain * gain_factor) + junction(i2, ube_v, data.recombination_ideality * u);
  if (data.emitter_base_breakdown_voltage_v) {
    const long double uebo = *data.emitter_base_breakdown_voltage_v;
    // The difference of the two exponentials, without its cancellation near zero volts.
    ibe -= breakdown_test_a * std::exp(-uebo / u) * std::expm1(-ube_v / u);
  }
  const long double ibc = r / (data.inverse_gain * gain_factor) +
                          junction(i3, ubc_v, data.collector_recombination_ideality * u) +
                          junction(ico, ubc_v, u);
  const long double transport = (f - r) / charge;
  return {transport - ibc, ibe + ibc, -transport - ibe, w};
}

long double diode_by_the_book(const devices::DiodeData& data,
                              long double temperature_k,
                              long double junction_v) {
  const long double u = thermal_voltage_by_the_book(temperature_k);
  const long double is =
      data.saturation_current_a * saturation_factor_by_the_book(temperature_k,
                                                                data.measured_at_k,
                                                                data.temperature_power,
                                                                data.band_gap_ev,
                                                                data.ideality);
  long double current = junction(is, junction_v, data.ideality * u);
  if (data.zener_voltage_v) {
    const long double uz = *data.zener_voltage_v *
                           (1 + data.zener_tempco_per_k * (temperature_k - data.measured_at_k));
    const long double scale = data.zener_ideality * u;
    current -= data.zener_test_current_a * std::exp(-uz / scale) * std::expm1(-junction_v / scale);
  }
  return current;
}

long double fet_by_the_book(const devices::FetData& data,
                            long double temperature_k,
                            long double ugs_v,
                            long double uds_v) {
  const long double u = thermal_voltage_by_the_book(temperature_k);
  const long double t0 = data.measured_at_k;
  const long double n = data.slope_factor;
  const long double ut =
      data.threshold_voltage_v + data.threshold_tempco_v_per_k * (temperature_k - t0);
  const long double k = data.current_factor_a_per_v2 *
                        std::pow(temperature_k / t0,
                                 -static_cast<long double>(data.current_factor_temperature_power));
  const long double source = squared_softplus(ugs_v - ut, n, u);
  const long double drain = squared_softplus(ugs_v - ut - n * uds_v, n, u);
  return 2 * n * u * u * k * (source - drain) * (1 + data.drain_slope_per_v * std::abs(uds_v));
}

long double fet_diode_by_the_book(const devices::FetData& data,
                                  long double temperature_k,
                                  long double voltage_v) {
  const long double is0 = data.is_junction ? data.gate_leakage_current_a : data.body_diode_a;
  const long double s = saturation_factor_by_the_book(
      temperature_k, data.measured_at_k, data.temperature_power, data.band_gap_ev, 1);
  return junction(is0 * s, voltage_v, thermal_voltage_by_the_book(temperature_k));
}

}  // namespace idlepoint::laws
