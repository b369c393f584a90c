#include "answers/metered.hpp"

namespace idlepoint::answers {
namespace {

circuit::Part meter_across(const circuit::VoltsBetween& points, double input_ohm) {
  circuit::Part meter;
  meter.name = "meter";
  meter.kind = circuit::PartKind::resistor;
  meter.leads = {points.a, points.b};
  meter.value = input_ohm;
  meter.details = circuit::ResistorDetails{};
  return meter;
}

}  // namespace

std::optional<circuit::CheckedCircuit> with_meter(const circuit::CheckedCircuit& stage,
                                                  const circuit::Probe& probe) {
  const auto* points = std::get_if<circuit::VoltsBetween>(&probe);
  if (points == nullptr || points->a == points->b) return std::nullopt;
  return stage.edited([&](circuit::Circuit& circuit) {
    circuit.parts.push_back(meter_across(*points, circuit.meter.input_ohm));
  });
}

}  // namespace idlepoint::answers
