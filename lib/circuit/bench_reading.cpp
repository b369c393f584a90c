#include "circuit/bench_reading.hpp"

namespace idlepoint::circuit {

std::string write_measurement(const Circuit& circuit, const Measurement& measurement) {
  const auto between = [&](const char* range, NodeId a, NodeId b) {
    return std::string(range) + " " + circuit.at(a).name + " " + circuit.at(b).name;
  };
  if (const auto* ohms = std::get_if<OhmsBetween>(&measurement)) {
    return between("ohms", ohms->a, ohms->b);
  }
  if (const auto* diode = std::get_if<DiodeBetween>(&measurement)) {
    return between("diode", diode->a, diode->b);
  }
  return write_probe(circuit, std::get<Probe>(measurement));
}

}  // namespace idlepoint::circuit
