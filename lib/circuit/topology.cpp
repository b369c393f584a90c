#include "circuit/topology.hpp"

#include "circuit/topology_checks.hpp"

namespace idlepoint::circuit {

complaints::Complaints check_topology(const Circuit& circuit) {
  const Wiring wiring = trace_wiring(circuit);
  complaints::Complaints found;
  check_untied(circuit, wiring, found);
  check_shorted(circuit, found);
  check_source_loops(circuit, found);
  check_rails(circuit, wiring, found);
  check_orientation(circuit, wiring, found);
  check_emitter_resistors(circuit, wiring, found);
  check_diodes(circuit, wiring, found);
  check_values(circuit, found);
  complaints::sort_by_place(found);
  return found;
}

}  // namespace idlepoint::circuit
