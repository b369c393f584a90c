// Numbers of a circuit by name: read, and set in a copy.
#include <cassert>
#include <optional>

#include "circuit/type_fields.hpp"
#include "circuit/uncertainty.hpp"

namespace idlepoint::circuit {
namespace {

bool is_field(const Circuit& circuit, const Parameter& parameter) {
  const auto* part = std::get_if<PartId>(&parameter.owner);
  if (part == nullptr || parameter.field == "value") return false;
  return !(parameter.field == "gain" && circuit.at(*part).damage.gain);
}

void set(Circuit& circuit, const Parameter& parameter, double value) {
  if (const auto* rail = std::get_if<RailId>(&parameter.owner)) {
    Rail& it = circuit.rails[rail->index];
    (it.measured_v ? *it.measured_v : it.nominal_v) = value;
    return;
  }
  Part& part = circuit.at(std::get<PartId>(parameter.owner));
  if (is_field(circuit, parameter)) {
    set_field(circuit.types[part.type->index], parameter.field, value);
  } else if (parameter.field == "value") {
    part.value = value;
  } else {
    part.damage.gain = value;
  }
}

void give_own_types(Circuit& circuit, std::span<const Parameter> parameters) {
  std::vector<bool> own(circuit.parts.size(), false);
  for (const Parameter& parameter : parameters) {
    if (!is_field(circuit, parameter)) continue;
    const PartId id = std::get<PartId>(parameter.owner);
    if (own[id.index]) continue;
    circuit.types.push_back(PartType(circuit.at(*circuit.at(id).type)));
    circuit.at(id).type = TypeId{circuit.types.size() - 1};
    own[id.index] = true;
  }
}

}  // namespace

double nominal(const Circuit& circuit, const Parameter& parameter) {
  if (const auto* rail = std::get_if<RailId>(&parameter.owner)) return source_v(circuit.at(*rail));
  const Part& part = circuit.at(std::get<PartId>(parameter.owner));
  if (parameter.field == "value") return part.value;
  if (parameter.field == "gain" && part.damage.gain) return *part.damage.gain;
  const std::optional<double> value = field_value(circuit.at(*part.type), parameter.field);
  assert(value);
  return value.value_or(0.0);
}

void set_parameters(Circuit& circuit,
                    std::span<const Parameter> parameters,
                    std::span<const double> values) {
  assert(parameters.size() == values.size());
  for (std::size_t k = 0; k < parameters.size(); ++k) set(circuit, parameters[k], values[k]);
}

CheckedCircuit with_parameters(const CheckedCircuit& circuit,
                               std::span<const Parameter> parameters,
                               std::span<const double> values) {
  return circuit.edited([&](Circuit& copy) {
    give_own_types(copy, parameters);
    set_parameters(copy, parameters, values);
  });
}

CheckedCircuit with_own_types(const CheckedCircuit& circuit, const Uncertainty& uncertainty) {
  const std::vector<double> middle(uncertainty.draws.size(), 0.0);
  return with_parameters(circuit, uncertainty.parameters, values_at(*circuit, uncertainty, middle));
}

}  // namespace idlepoint::circuit
