#include "answers/alike_types.hpp"

#include <cmath>

namespace idlepoint::answers {
namespace {

constexpr double alike_volts_v = 8e-3;
constexpr double alike_times = 4.0 / 3.0;
constexpr double alike_threshold_v = 0.1;
constexpr double alike_zener = 0.05;
constexpr double thermal_v = 25.7e-3;  ///< At 25 C: how far apart, not how large.

bool is_within(double one, double other, double times) {
  return std::abs(std::log(one / other)) < std::log(times);
}

/// Volts at a current of so many amperes.
double volts_at(double saturation_a, double ideality, double current_a) {
  return ideality * thermal_v * std::log(current_a / saturation_a);
}

bool reads_like(const devices::BipolarData& one, const devices::BipolarData& other) {
  constexpr double current_a = 10e-3;
  return is_within(one.gain, other.gain, alike_times) &&
         std::abs(volts_at(one.saturation_current_a, one.ideality, current_a) -
                  volts_at(other.saturation_current_a, other.ideality, current_a)) < alike_volts_v;
}

bool reads_like(const devices::DiodeData& one, const devices::DiodeData& other) {
  if (one.zener_voltage_v.has_value() != other.zener_voltage_v.has_value()) return false;
  if (one.zener_voltage_v &&
      !is_within(*one.zener_voltage_v, *other.zener_voltage_v, 1.0 + alike_zener)) {
    return false;
  }
  for (const double current_a : {1e-3, 10e-3}) {
    if (std::abs(volts_at(one.saturation_current_a, one.ideality, current_a) -
                 volts_at(other.saturation_current_a, other.ideality, current_a)) >=
        alike_volts_v) {
      return false;
    }
  }
  return true;
}

bool reads_like(const devices::FetData& one, const devices::FetData& other) {
  return is_within(one.current_factor_a_per_v2, other.current_factor_a_per_v2, alike_times) &&
         std::abs(one.threshold_voltage_v - other.threshold_voltage_v) < alike_threshold_v;
}

}  // namespace

bool reads_like(const circuit::PartType& one, const circuit::PartType& other) {
  if (one.kind != other.kind) return false;
  return std::visit(
      [&](const auto& law) {
        return reads_like(law, std::get<std::decay_t<decltype(law)>>(other.law));
      },
      one.law);
}

}  // namespace idlepoint::answers
