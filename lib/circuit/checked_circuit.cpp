// From a drawing to one that may be solved: no blanks, no error of the topology checks.

#include "circuit/checked_circuit.hpp"

#include <fmt/format.h>

#include "circuit/topology.hpp"

namespace idlepoint::circuit {

complaints::Result<CheckedCircuit> check_circuit(Circuit circuit) {
  if (!circuit.blanks.empty()) {
    complaints::Complaints blanks;
    for (const Blank& blank : circuit.blanks) {
      blanks.push_back({.kind = complaints::kind("blank"),
                        .headline = fmt::format("{} is still to be filled in", blank.text),
                        .places = {blank.place},
                        .why = "",
                        .instead = "Write in place of `?` what the sheet or the board shows."});
    }
    return blanks;
  }
  complaints::Complaints found = check_topology(circuit);
  if (complaints::has_error(found)) return found;
  return CheckedCircuit(std::move(circuit), std::move(found));
}

}  // namespace idlepoint::circuit
