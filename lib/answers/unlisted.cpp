#include "answers/unlisted.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "circuit/hand_meter.hpp"

namespace idlepoint::answers {
namespace {

/// What no reading can be likelier than: the meter's own spread.
double peak(const Observed& reading) {
  return 1.0 / (reading.deviation * std::sqrt(2.0 * std::numbers::pi));
}

/// Even in asinh(x / small) over -largest to largest.
double of_any_size(double x, double small, double largest) {
  return 1.0 / (2.0 * std::asinh(largest / small) * std::hypot(x, small));
}

double largest_v(const circuit::Circuit& circuit) {
  double low_v = 0.0;
  double high_v = 0.0;
  for (const circuit::Rail& rail : circuit.rails) {
    low_v = std::min(low_v, circuit::source_v(rail));
    high_v = std::max(high_v, circuit::source_v(rail));
  }
  return std::max(high_v - low_v, 1.0);
}

double density(const circuit::Circuit& circuit,
               const circuit::Measurement& measurement,
               const Observed& reading) {
  constexpr double decades_of_ohms = 8.0;  ///< 0.2 ohm to 20 megohm.
  constexpr double largest_a = 10.0;
  constexpr double small_a = 0.1e-3;
  constexpr double small_w = 1e-3;
  constexpr double kelvins = 150.0;
  if (std::holds_alternative<circuit::OhmsBetween>(measurement)) {
    const double v = std::clamp(reading.value, 1e-5, circuit::ohms_range_v - 1e-7);
    const double by_v = circuit::ohms_range_v / (v * (circuit::ohms_range_v - v));
    return by_v / (decades_of_ohms * std::numbers::ln10);
  }
  if (std::holds_alternative<circuit::DiodeBetween>(measurement)) {
    return reading.value >= circuit::diode_is_open_v ? peak(reading) / 3.0
                                                     : 1.0 / circuit::diode_range_v;
  }
  const auto& probe = std::get<circuit::Probe>(measurement);
  if (std::holds_alternative<circuit::VoltsBetween>(probe)) {
    return of_any_size(reading.value, circuit.meter.floor_v, largest_v(circuit));
  }
  if (std::holds_alternative<circuit::AmpsThrough>(probe)) {
    return of_any_size(reading.value, small_a, largest_a);
  }
  if (std::holds_alternative<circuit::WattsIn>(probe)) {
    return of_any_size(reading.value, small_w, largest_a * largest_v(circuit));
  }
  return 1.0 / kelvins;
}

}  // namespace

double log_density_of_anything(const circuit::Circuit& circuit,
                               const circuit::Measurement& measurement,
                               const Observed& reading) {
  return std::log(std::min(density(circuit, measurement, reading), peak(reading)));
}

}  // namespace idlepoint::answers
