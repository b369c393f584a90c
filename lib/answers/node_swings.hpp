// Which points go up and down with the output while music plays, and by how much.
//
// Used to tell which transistors stand between the moving output and a rail, and what the swing
// itself puts across a resistor. A picture of the drawing at audio frequencies, not a DC state: the
// output moves, rails, ground and the input stand still; wires, windings and capacitors of 1 uF or
// more carry the swing, resistances share it; base-emitter and gate-source voltages, diodes that
// conduct and trimmers' wipers follow; what a collector or drain carries does not change with its
// volts. A `hold` against ground or a rail stands in for what is not drawn: it lets its point move.
#pragma once

#include <vector>

#include "circuit/circuit.hpp"
#include "solve/operating_point.hpp"

namespace idlepoint::answers {

/// [nodes] volts that each point moves when the output moves by 1 V: 0 of a rail, 1 of the output,
/// in between where resistances divide. All 0 where the circuit has no output. `rest` tells which
/// diodes conduct.
[[nodiscard]] std::vector<double> node_swings(const circuit::Circuit& circuit,
                                              const solve::OperatingPoint& rest);

/// Volts between two leads of a part that come and go as the output moves by 1 V, signed; 0 where a
/// lead is left off.
[[nodiscard]] double swing_across(const std::vector<double>& swings,
                                  const circuit::Part& part,
                                  std::size_t lead_1,
                                  std::size_t lead_2);

}  // namespace idlepoint::answers
