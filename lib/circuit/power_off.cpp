#include "circuit/power_off.hpp"

namespace idlepoint::circuit {

CheckedCircuit power_off(const CheckedCircuit& stage) {
  return stage.edited([](Circuit& circuit) {
    for (auto& rail : circuit.rails) {
      rail.nominal_v = 0.0;
      rail.measured_v.reset();
      rail.tolerance = 0.0;
      rail.resistance_ohm += supply_when_off_ohm;
    }
    for (auto& part : circuit.parts) {
      const bool delivers = part.kind == PartKind::hold || part.kind == PartKind::feed;
      if (delivers) part.damage.absent = true;
    }
  });
}

}  // namespace idlepoint::circuit
