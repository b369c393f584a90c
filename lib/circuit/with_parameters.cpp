// Numbers of a circuit by name: read, and set in a copy.
#include <cassert>
#include <optional>

#include "circuit/type_fields.hpp"
#include "circuit/uncertainty.hpp"

namespace idlepoint::circuit {
namespace {

/// Sets one number; [parts] `own` tells which parts already have a type of their own.
void set(Circuit& circuit, const Parameter& parameter, double value, std::vector<bool>& own) {
  if (const auto* rail = std::get_if<RailId>(&parameter.owner)) {
    Rail& it = circuit.rails[rail->index];
    (it.measured_v ? *it.measured_v : it.nominal_v) = value;
    return;
  }
  const PartId id = std::get<PartId>(parameter.owner);
  Part& part = circuit.at(id);
  if (parameter.field == "value") {
    part.value = value;
    return;
  }
  if (parameter.field == "gain" && part.damage.gain) {
    part.damage.gain = value;
    return;
  }
  if (!own[id.index]) {
    circuit.types.push_back(circuit.at(*part.type));
    part.type = TypeId{circuit.types.size() - 1};
    own[id.index] = true;
  }
  set_field(circuit.types[part.type->index], parameter.field, value);
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

CheckedCircuit with_parameters(const CheckedCircuit& circuit,
                               std::span<const Parameter> parameters,
                               std::span<const double> values) {
  assert(parameters.size() == values.size());
  return circuit.edited([&](Circuit& copy) {
    std::vector<bool> own(copy.parts.size(), false);
    for (std::size_t k = 0; k < parameters.size(); ++k) {
      set(copy, parameters[k], values[k], own);
    }
  });
}

}  // namespace idlepoint::circuit
