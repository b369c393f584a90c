#include "solve/part_numbers.hpp"

namespace idlepoint::solve {
namespace {

DiodeNumbers with_critical_voltages(const devices::DiodeAt& at, double count) {
  return {at,
          count,
          devices::critical_voltage(at.forward.saturation_a, at.forward.scale_v),
          at.has_zener ? devices::critical_voltage(at.zener_test_a, at.zener_scale_v) : 0.0};
}

double sign_of(circuit::PartKind kind) { return circuit::is_p_kind(kind) ? -1.0 : 1.0; }

}  // namespace

DiodeNumbers diode_numbers(const circuit::Circuit& circuit,
                           const circuit::Part& part,
                           double temperature_k) {
  const auto& data = std::get<devices::DiodeData>(circuit.at(*part.type).law);
  const double count = std::get<circuit::DiodeDetails>(part.details).junctions;
  return with_critical_voltages(devices::diode_at(data, temperature_k), count);
}

BipolarNumbers bipolar_numbers(const circuit::Circuit& circuit,
                               const circuit::Part& part,
                               double temperature_k) {
  devices::BipolarData data = std::get<devices::BipolarData>(circuit.at(*part.type).law);
  if (part.damage.gain) data.gain = *part.damage.gain;
  const devices::BipolarAt at = devices::bipolar_at(data, temperature_k);
  const double thermal_v = at.thermal_v.value;
  return {at,
          sign_of(part.kind),
          devices::critical_voltage(at.saturation_a.value, at.ideality * thermal_v),
          devices::critical_voltage(at.saturation_a.value, at.inverse_ideality * thermal_v)};
}

FetNumbers fet_numbers(const circuit::Circuit& circuit,
                       const circuit::Part& part,
                       double temperature_k) {
  const auto& data = std::get<devices::FetData>(circuit.at(*part.type).law);
  return {devices::fet_at(data, temperature_k), sign_of(part.kind)};
}

DiodeNumbers fet_junction_numbers(const FetNumbers& fet) {
  devices::DiodeAt at;
  at.forward = fet.at.diode;
  return with_critical_voltages(at, 1.0);
}

}  // namespace idlepoint::solve
