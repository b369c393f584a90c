#include "answers/fit_parameters.hpp"

#include <cassert>
#include <cmath>

#include "answers/fit_classes.hpp"

namespace idlepoint::answers {
namespace {

using circuit::PartKind;
using circuit::TypePoints;

std::vector<FitParameter> all_parameters(const TypePoints& asked) {
  if (asked.type.kind == PartKind::diode) return diode_parameters(asked);
  if (circuit::is_bipolar(asked.type.kind)) return bipolar_parameters(asked);
  const bool is_junction = std::get<devices::FetData>(asked.type.law).is_junction;
  return is_junction ? junction_fet_parameters(asked) : mosfet_parameters(asked);
}

/// What the variable is as the field's own number.
double field_number(const Law& law, const FitParameter& parameter, double value) {
  switch (parameter.stands) {
    case Stands::plain:
      break;
    case Stands::negative:
      return -value;
    case Stands::crossing: {
      // At the crossing f = value, so U_be = m U ln(value / Is).
      const auto& data = std::get<devices::BipolarData>(law);
      return value / data.gain *
             std::pow(data.saturation_current_a / value,
                      data.ideality / data.recombination_ideality);
    }
    case Stands::idss:
      return devices::current_factor_from_idss(value,
                                               std::get<devices::FetData>(law).threshold_voltage_v);
  }
  return value;
}

template <class Data>
MemberOf<Data> member_named(std::span<const circuit::TypeField<Data>> fields,
                            std::string_view name) {
  for (const auto& field : fields) {
    if (field.name == name) return field.member;
  }
  assert(false && "a variable of the fit that is no field of the law");
  return fields.front().member;
}

LawMember member_of(const Law& law, std::string_view name) {
  if (std::holds_alternative<devices::DiodeData>(law)) {
    return member_named(circuit::diode_fields(), name);
  }
  if (std::holds_alternative<devices::BipolarData>(law)) {
    return member_named(circuit::bipolar_fields(), name);
  }
  return member_named(circuit::fet_fields(), name);
}

}  // namespace

std::vector<FitParameter> fit_parameters(const TypePoints& asked) {
  std::vector<FitParameter> list = all_parameters(asked);
  std::erase_if(list, [&](const FitParameter& parameter) {
    return asked.given.contains(std::string(parameter.field));
  });
  for (FitParameter& parameter : list) {
    parameter.member = member_of(asked.type.law, parameter.field);
  }
  return list;
}

double value_at(const FitParameter& parameter, double u) {
  return parameter.is_logarithmic ? parameter.usual * std::exp(parameter.width * u)
                                  : parameter.usual + parameter.width * u;
}

double u_of(const FitParameter& parameter, double value) {
  return parameter.is_logarithmic ? std::log(value / parameter.usual) / parameter.width
                                  : (value - parameter.usual) / parameter.width;
}

void store(Law& law, const FitParameter& parameter, double value) {
  const double number = field_number(law, parameter, value);
  std::visit(
      [&]<class Data>(const MemberOf<Data>& member) {
        std::visit([&](auto where) { std::get<Data>(law).*where = number; }, member);
      },
      parameter.member);
}

}  // namespace idlepoint::answers
