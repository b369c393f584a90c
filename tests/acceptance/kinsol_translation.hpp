// A drawing's values as a plain amplifier, for KINSOL: no law and no equation of ours comes along.
#pragma once

#include <vector>

#include "acceptance/kinsol_amplifier.hpp"
#include "circuit/circuit.hpp"

namespace idlepoint::tests {

/// Where a part of the drawing went in the plain amplifier.
struct Counterpart {
  const circuit::Part* part;
  circuit::PartId id;
  std::size_t index;  ///< In its list; of a trimmer's first stretch.
};

struct Translation {
  PlainAmplifier amplifier;
  std::vector<Counterpart> resistors, trimmers, diodes, transistors;
};

/// Of a resistor, a thermistor, an inductor or a fuse.
[[nodiscard]] double resistance_ohm(const circuit::Part& part, double temperature_k);

/// Every part at ambient; `circuit` must outlive the result. A kind of part that it does not know
/// fails the test.
[[nodiscard]] Translation translated(const circuit::Circuit& circuit);

}  // namespace idlepoint::tests
