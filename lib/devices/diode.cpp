#include "devices/diode.hpp"

#include "devices/diode_law.hpp"

namespace idlepoint::devices {

DiodeAt diode_at(const DiodeData& data, double temperature_k) noexcept {
  return law::diode_at(data, temperature_k);
}

JunctionTangent evaluate_diode(const DiodeAt& at, double junction_v) noexcept {
  return law::evaluate_diode(at, junction_v);
}

double saturation_current_from_vf(const DiodeData& data, double vf_v, double current_a) noexcept {
  const double junction_v = vf_v - current_a * data.series_resistance_ohm;
  if (!(junction_v > 0.0)) return 0.0;
  const DiodeAt at = diode_at(data, data.measured_at_k);
  const double breakdown_a = at.has_zener ? law::breakdown_current(at, junction_v).current_a : 0.0;
  return (current_a + breakdown_a) / growth(junction_v / at.forward.scale_v).less_one;
}

}  // namespace idlepoint::devices
