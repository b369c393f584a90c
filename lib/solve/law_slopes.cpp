#include "solve/law_slopes.hpp"

#include "circuit/type_fields.hpp"
#include "devices/bipolar_law.hpp"
#include "devices/diode_law.hpp"
#include "devices/fet_law.hpp"
#include "devices/widened.hpp"

namespace idlepoint::solve {
namespace {

using devices::Dual;

std::span<const circuit::TypeField<devices::DiodeData>> fields_of(const devices::DiodeData&) {
  return circuit::diode_fields();
}
std::span<const circuit::TypeField<devices::BipolarData>> fields_of(const devices::BipolarData&) {
  return circuit::bipolar_fields();
}
std::span<const circuit::TypeField<devices::FetData>> fields_of(const devices::FetData&) {
  return circuit::fet_fields();
}

/// Where a field's number stands within its data.
template <class Data>
const void* place_of(const Data& data, const std::string& name) {
  for (const auto& field : fields_of(data)) {
    if (field.name != name) continue;
    return std::visit([&](auto member) { return static_cast<const void*>(&(data.*member)); },
                      field.member);
  }
  return nullptr;
}

void carry_slope(Dual& number) { number.slope = 1.0; }
void carry_slope(std::optional<Dual>& number) {
  if (number) number->slope = 1.0;
}

/// The data as dual numbers, the named field carrying the derivative.
template <class Data>
auto with_slope(const Data& data, const std::string& name) {
  auto dual = devices::law::widened<Dual>(data);
  const void* place = place_of(data, name);
  devices::law::for_each_field(dual, data, [&](auto& number, const auto& plain) {
    if (static_cast<const void*>(&plain) == place) carry_slope(number);
  });
  return dual;
}

}  // namespace

LawSlopes::LawSlopes(const circuit::Circuit& circuit,
                     const circuit::Part& part,
                     const std::string& field,
                     double temperature_k)
    : temperature_k_(temperature_k) {
  const auto take = [&](const circuit::PartType& type) {
    std::visit([&](const auto& data) { law_ = with_slope(data, field); }, type.law);
  };
  const circuit::PartType& type = circuit.at(*part.type);
  if (part.damage.gain) {
    circuit::PartType worn = type;
    circuit::set_field(worn, "gain", *part.damage.gain);
    take(worn);
  } else {
    take(type);
  }
}

LawSlopes::Bipolar LawSlopes::bipolar(double ube_v, double ubc_v) const {
  const auto& data = std::get<devices::BasicBipolarData<Dual>>(law_);
  const auto law = devices::law::evaluate_bipolar<Dual>(
      devices::law::bipolar_at<Dual>(data, temperature_k_), ube_v, ubc_v);
  return {law.collector_a.slope, law.base_a.slope};
}

double LawSlopes::channel(double ugs_v, double uds_v) const {
  const auto& data = std::get<devices::BasicFetData<Dual>>(law_);
  const auto at = devices::law::fet_at<Dual>(data, temperature_k_);
  return devices::law::evaluate_fet<Dual>(at, ugs_v, uds_v).drain_a.slope;
}

double LawSlopes::junction(double junction_v) const {
  if (const auto* fet = std::get_if<devices::BasicFetData<Dual>>(&law_)) {
    const auto at = devices::law::fet_at<Dual>(*fet, temperature_k_);
    return devices::law::evaluate_junction<Dual>(at.diode, junction_v).current_a.slope;
  }
  const auto& data = std::get<devices::BasicDiodeData<Dual>>(law_);
  const auto at = devices::law::diode_at<Dual>(data, temperature_k_);
  return devices::law::evaluate_diode<Dual>(at, junction_v).current_a.slope;
}

}  // namespace idlepoint::solve
