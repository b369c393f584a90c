#include "devices/passive.hpp"

#include "devices/passive_law.hpp"

namespace idlepoint::devices {

namespace {

constexpr double second_point_k = 323.15;  ///< 50 C, the thermistor's second point.

}  // namespace

LampTangent evaluate_lamp(double rated_v, double rated_w, double voltage_v) noexcept {
  return law::evaluate_lamp(rated_v, rated_w, voltage_v);
}

FeedTangent evaluate_feed(double value_a, double compliance_v, double voltage_v) noexcept {
  return law::evaluate_feed(value_a, compliance_v, voltage_v);
}

ResistanceAt thermistor_resistance(double at_25c_ohm,
                                   double beta_k,
                                   double temperature_k) noexcept {
  return law::thermistor_resistance(at_25c_ohm, beta_k, temperature_k);
}

ResistanceAt resistor_resistance(double ohm, double tempco_per_k, double temperature_k) noexcept {
  const double ohm_per_k = ohm * tempco_per_k;
  return {.ohm = ohm + ohm_per_k * (temperature_k - values::reference_temperature_k),
          .ohm_per_k = ohm_per_k};
}

double beta_from_two_points(double at_25c_ohm, double at_50c_ohm) noexcept {
  return std::log(at_25c_ohm / at_50c_ohm) /
         (1.0 / values::reference_temperature_k - 1.0 / second_point_k);
}

}  // namespace idlepoint::devices
