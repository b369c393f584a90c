// Where a chain of cause ends: at the readings that a meter sees change, at the output, at parts in
// danger.
//
// Used by answers/fault_chain. Source of the meter's error: docs/language.md, `meter`.
#pragma once

#include <cstddef>
#include <vector>

#include "answers/fault_moves.hpp"
#include "circuit/ids.hpp"

namespace idlepoint::answers {

/// A change that the stage's meter shows beyond its own error: in volts twice `floor` and `error`,
/// in amperes and watts 2 % and 50 uA (50 uW), of temperatures 1 K.
[[nodiscard]] bool meter_shows(const circuit::Circuit& circuit,
                               const circuit::Probe& probe,
                               const Change& change);

/// Vertices (answers/fault_graph), each once: what every changed reading lies across or reads, the
/// output, and `in_danger`. Nodes that moved by less than 3 % of the furthest are left out.
[[nodiscard]] std::vector<std::size_t> find_ends(const Moves& moves,
                                                 const std::vector<circuit::PartId>& in_danger);

}  // namespace idlepoint::answers
