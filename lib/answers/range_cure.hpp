// A trimmer that no longer reaches its target: which one resistor, at which other value, would let
// it.
//
// Used by the `swap` answer. Values are those of the E24 series [IEC60063].
#pragma once

#include <vector>

#include "circuit/checked_circuit.hpp"
#include "solve/conditions.hpp"

namespace idlepoint::answers {

struct RangeCure {
  circuit::PartId resistor;
  double from_ohm = 0.0;
  double to_ohm = 0.0;
  double travel = 0.0;  ///< Where the trimmer then finishes, 0 to 1 from the first-named end.
};

/// The two slightest changes, those of resistors on the trimmer's own joints before others, with
/// which every target of `stage` is reached and this trimmer finishes between 5 and 95 % of its
/// track. `stage` has its trimmers set as far as they go. Empty where no single resistor between a
/// quarter and four times its value does it. Cost: some ten solves a resistor.
[[nodiscard]] std::vector<RangeCure> find_range_cures(const circuit::CheckedCircuit& stage,
                                                      const solve::Conditions& conditions,
                                                      const circuit::Adjustment& missed);

}  // namespace idlepoint::answers
