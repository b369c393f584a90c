// The volts that the service sheet prints beside those calculated: the best proof that a drawing
// was copied right.
//
// Used by the check answer. Source: docs/commands.md, "check".
#pragma once

#include <string>
#include <vector>

#include "circuit/circuit.hpp"
#include "solve/operating_point.hpp"

namespace idlepoint::answers {

struct PrintedComparison {
  circuit::NodeId a;
  circuit::NodeId b;
  std::string text;  ///< "the emitter of Q603".
  double printed_v = 0.0;
  double calculated_v = 0.0;
  double off_v = 0.0;      ///< Calculated less printed.
  bool disagrees = false;  ///< Off by more than 10 % of the printed volts and more than 50 mV.
  bool agrees_with_all_parts = false;  ///< Off so with parts taken out alone: no disagreement.
};

/// Those that disagree first; within either group the furthest off first, equals in file order.
[[nodiscard]] std::vector<PrintedComparison> compare_printed(const circuit::Circuit& circuit,
                                                             const solve::OperatingPoint& state);

}  // namespace idlepoint::answers
