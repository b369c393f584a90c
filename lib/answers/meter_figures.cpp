#include "answers/meter_figures.hpp"

#include <algorithm>
#include <cmath>

#include "answers/off_figures.hpp"
#include "circuit/hand_meter.hpp"

namespace idlepoint::answers {

using circuit::Measurement;
using circuit::Probe;

namespace {

/// Of a rectangular distribution of that half-width.
const double rectangular = 1.0 / std::sqrt(3.0);

constexpr double amps_floor_a = 0.05e-3;
constexpr double watts_error = 0.02;
constexpr double celsius_error_k = 2.0;
constexpr double about_share = 0.1;      ///< "About 0.6 V": one in ten.
constexpr double surely_open_ohm = 2e6;  ///< What a person calls open need not be 20 megohms.

}  // namespace

double meter_deviation(const circuit::Meter& meter, const Measurement& measurement, double shown) {
  if (std::holds_alternative<circuit::OhmsBetween>(measurement)) {
    const double source_ohm = circuit::ohms_range_v / circuit::ohms_range_a;
    const double left_v = std::max(circuit::ohms_range_v - shown, 1e-7);
    const double ohms = source_ohm * std::max(shown, 0.0) / left_v;
    const double by_ohm = left_v * left_v / (source_ohm * circuit::ohms_range_v);
    // Fingers, damp and the insulation of the meter's own leads blur what is far above a megohm.
    const double blurred_v = circuit::ohms_range_v - circuit::volts_of_ohms(surely_open_ohm);
    return std::hypot(rectangular * (off_meter_share * ohms + ohms_meter_floor_ohm) * by_ohm,
                      blurred_v);
  }
  if (std::holds_alternative<circuit::DiodeBetween>(measurement)) {
    return rectangular * (meter.error * std::abs(shown) + diode_meter_floor_v);
  }
  const Probe& probe = std::get<Probe>(measurement);
  if (std::holds_alternative<circuit::CelsiusOf>(probe)) return celsius_error_k;
  if (std::holds_alternative<circuit::VoltsBetween>(probe)) {
    return rectangular * (meter.error * std::abs(shown) + meter.floor_v);
  }
  const bool is_watts = std::holds_alternative<circuit::WattsIn>(probe);
  return rectangular *
         ((is_watts ? watts_error : 2.0 * meter.error) * std::abs(shown) + amps_floor_a);
}

Observed without_figure() noexcept { return {0.0, 1e6}; }

Observed observed(const circuit::Meter& meter, const circuit::BenchReading& reading) {
  const Measurement& measurement = reading.measurement;
  const bool is_ohms = std::holds_alternative<circuit::OhmsBetween>(measurement);
  if (reading.firmness == circuit::Firmness::beyond_range) {
    if (is_ohms) {
      return {circuit::ohms_range_v,
              circuit::ohms_range_v - circuit::volts_of_ohms(surely_open_ohm)};
    }
    return {circuit::diode_range_v,
            rectangular * (circuit::diode_range_v - circuit::diode_is_open_v)};
  }
  const double value = reading.value.value_or(0.0);
  const double shown = is_ohms ? circuit::volts_of_ohms(value) : value;
  double deviation = meter_deviation(meter, measurement, shown);
  if (reading.firmness == circuit::Firmness::about) {
    const double by_ten = circuit::volts_of_ohms((1.0 + about_share) * value) - shown;
    deviation = std::hypot(deviation, is_ohms ? by_ten : about_share * std::abs(value));
  }
  return {shown, deviation};
}

ReadOff read_off(const Measurement& measurement, double shown) {
  if (std::holds_alternative<circuit::OhmsBetween>(measurement)) {
    const auto ohms = circuit::ohms_shown(shown);
    return {ohms.value_or(circuit::ohms_are_open_ohm), !ohms};
  }
  if (std::holds_alternative<circuit::DiodeBetween>(measurement)) {
    return {shown, !circuit::diode_shown(shown)};
  }
  return {shown, false};
}

}  // namespace idlepoint::answers
