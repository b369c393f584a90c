#include "devices/passive.hpp"

#include <cmath>

#include "values/constants.hpp"

namespace idlepoint::devices {

namespace {

constexpr double lamp_exponent = 0.225;    ///< Half of 0.45: R goes as V^0.45.
constexpr double lamp_cold_share = 0.003;  ///< Of the rated voltage: the smooth cold end.
constexpr double feed_scale_v = 0.05;      ///< Over which a feed loses its current.
constexpr double second_point_k = 323.15;  ///< 50 C, the thermistor's second point.

}  // namespace

LampTangent evaluate_lamp(double rated_v, double rated_w, double voltage_v) noexcept {
  const double share = voltage_v / rated_v;
  const double smooth = share * share + lamp_cold_share * lamp_cold_share;
  const double hot_s = rated_w / (rated_v * rated_v);
  const double chord_s = hot_s * std::pow(smooth, -lamp_exponent);
  return {.current_a = voltage_v * chord_s,
          .conductance_s = chord_s * (1.0 - 2.0 * lamp_exponent * share * share / smooth)};
}

FeedTangent evaluate_feed(double value_a, double compliance_v, double voltage_v) noexcept {
  const double x = (voltage_v - compliance_v) / feed_scale_v;
  // The exponential of minus the magnitude cannot overflow; both branches share it.
  const double small = std::exp(-std::abs(x));
  const double larger = 1.0 / (1.0 + small);
  const double smaller = small * larger;
  return {.current_a = value_a * (x >= 0.0 ? larger : smaller),
          .conductance_s = value_a * larger * smaller / feed_scale_v};
}

ResistanceAt thermistor_resistance(double at_25c_ohm,
                                   double beta_k,
                                   double temperature_k) noexcept {
  const double ohm =
      at_25c_ohm * std::exp(beta_k * (1.0 / temperature_k - 1.0 / values::reference_temperature_k));
  return {.ohm = ohm, .ohm_per_k = -ohm * beta_k / (temperature_k * temperature_k)};
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
