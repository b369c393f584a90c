// What is wrong with a drawing before any number is looked at, and which values look like slips.
//
// Used by `check_circuit`; each check is one function in its own .cpp (topology_*.cpp), over one
// graph of the circuit. Source: docs/language.md, "What is an error, what a warning".
#pragma once

#include "circuit/circuit.hpp"
#include "complaints/complaint.hpp"

namespace idlepoint::circuit {

/// Every error and warning that the drawing alone shows, sorted by place. Warnings that need a
/// solve (a healthy transistor that comes out reversed, a trimmer that cannot move its reading,
/// more than one DC state) are not here: answers/check adds them.
[[nodiscard]] complaints::Complaints check_topology(const Circuit& circuit);

}  // namespace idlepoint::circuit
