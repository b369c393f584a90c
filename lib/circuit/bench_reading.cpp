#include "circuit/bench_reading.hpp"

#include <type_traits>

namespace idlepoint::circuit {
namespace {

bool are_same_points(const VoltsBetween& one, const VoltsBetween& other) {
  return (one.a == other.a && one.b == other.b) || (one.a == other.b && one.b == other.a);
}

bool is_same_probe(const Probe& one, const Probe& other) {
  if (one.index() != other.index()) return false;
  return std::visit(
      [&other](const auto& probe) {
        const auto& same = std::get<std::decay_t<decltype(probe)>>(other);
        if constexpr (std::is_same_v<std::decay_t<decltype(probe)>, VoltsBetween>) {
          return are_same_points(probe, same);
        } else {
          return probe.what == same.what;
        }
      },
      one);
}

}  // namespace

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

bool is_same_measurement(const Measurement& one, const Measurement& other) {
  if (one.index() != other.index()) return false;
  if (const auto* probe = std::get_if<Probe>(&one)) {
    return is_same_probe(*probe, std::get<Probe>(other));
  }
  if (const auto* ohms = std::get_if<OhmsBetween>(&one)) {
    const auto& same = std::get<OhmsBetween>(other);
    return ohms->a == same.a && ohms->b == same.b;
  }
  const auto& diode = std::get<DiodeBetween>(one);
  const auto& same = std::get<DiodeBetween>(other);
  return diode.a == same.a && diode.b == same.b;
}

}  // namespace idlepoint::circuit
