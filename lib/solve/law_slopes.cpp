#include "solve/law_slopes.hpp"

#include <cmath>

#include "circuit/type_fields.hpp"

namespace idlepoint::solve {

LawSlopes::LawSlopes(const circuit::Circuit& circuit,
                     const circuit::Part& part,
                     const std::string& field,
                     double temperature_k)
    : above_(circuit.at(*part.type)), temperature_k_(temperature_k) {
  if (part.damage.gain) circuit::set_field(above_, "gain", *part.damage.gain);
  below_ = above_;
  const double nominal = circuit::field_value(above_, field).value_or(0.0);
  step_ = nominal == 0.0 ? 1e-6 : 1e-5 * std::abs(nominal);
  circuit::set_field(above_, field, nominal + step_);
  circuit::set_field(below_, field, nominal - step_);
}

LawSlopes::Bipolar LawSlopes::bipolar(double ube_v, double ubc_v) const {
  const auto at = [&](const circuit::PartType& type) {
    const auto& data = std::get<devices::BipolarData>(type.law);
    return devices::evaluate_bipolar(devices::bipolar_at(data, temperature_k_), ube_v, ubc_v);
  };
  const auto above = at(above_);
  const auto below = at(below_);
  return {(above.collector_a - below.collector_a) / (2.0 * step_),
          (above.base_a - below.base_a) / (2.0 * step_)};
}

double LawSlopes::channel(double ugs_v, double uds_v) const {
  const auto at = [&](const circuit::PartType& type) {
    const auto& data = std::get<devices::FetData>(type.law);
    return devices::evaluate_fet(devices::fet_at(data, temperature_k_), ugs_v, uds_v).drain_a;
  };
  return (at(above_) - at(below_)) / (2.0 * step_);
}

double LawSlopes::junction(double junction_v) const {
  const auto at = [&](const circuit::PartType& type) {
    if (const auto* fet = std::get_if<devices::FetData>(&type.law)) {
      const auto numbers = devices::fet_at(*fet, temperature_k_);
      return devices::evaluate_junction(numbers.diode, junction_v).current_a;
    }
    const auto& data = std::get<devices::DiodeData>(type.law);
    return devices::evaluate_diode(devices::diode_at(data, temperature_k_), junction_v).current_a;
  };
  return (at(above_) - at(below_)) / (2.0 * step_);
}

}  // namespace idlepoint::solve
