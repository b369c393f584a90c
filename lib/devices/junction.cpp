#include "devices/junction.hpp"

#include "devices/junction_law.hpp"

namespace idlepoint::devices {

JunctionTangent evaluate_junction(const JunctionAt& at, double voltage_v) noexcept {
  return law::evaluate_junction(at, voltage_v);
}

Scaled saturation_factor(double temperature_k,
                         double measured_at_k,
                         double temperature_power,
                         double band_gap_ev,
                         double ideality) noexcept {
  return law::saturation_factor(
      temperature_k, {measured_at_k, temperature_power, band_gap_ev}, ideality);
}

double limited_junction_voltage(double proposed_v,
                                double last_v,
                                double scale_v,
                                double critical_v) noexcept {
  return law::limited_junction_voltage(proposed_v, last_v, scale_v, critical_v);
}

double critical_voltage(double saturation_a, double scale_v) noexcept {
  return law::critical_voltage(saturation_a, scale_v);
}

}  // namespace idlepoint::devices
