#include "answers/metered.hpp"

#include "circuit/hand_meter.hpp"

namespace idlepoint::answers {

std::optional<circuit::CheckedCircuit> with_meter(const circuit::CheckedCircuit& stage,
                                                  const circuit::Probe& probe) {
  const auto* points = std::get_if<circuit::VoltsBetween>(&probe);
  if (points == nullptr || points->a == points->b) return std::nullopt;
  return stage.edited([&](circuit::Circuit& circuit) {
    circuit::connect(circuit, circuit::add_volts_range(circuit, points->a, points->b));
  });
}

}  // namespace idlepoint::answers
