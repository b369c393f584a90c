// One emitter resistor or both: the sentences that keep a factor of two out of a reading.
#pragma once

#include <string>
#include <vector>

#include "answers/reading_values.hpp"
#include "circuit/circuit.hpp"
#include "solve/operating_point.hpp"

namespace idlepoint::report {

/// "(R11)" or "(R11 and R12)": the emitter resistors that a reading in volts lies across; empty
/// where none.
[[nodiscard]] std::string resistors_in_brackets(const circuit::Circuit& circuit,
                                                const circuit::Probe& probe);

/// "`upper` is across one 0R22 (R11): 11.0 mV there means 50 mA in it. ...", one sentence or two a
/// reading across emitter resistors, in the readings' order. What a pair of resistors has in common
/// is said once.
[[nodiscard]] std::vector<std::string> one_or_both(
    const circuit::Circuit& circuit,
    const solve::OperatingPoint& state,
    const std::vector<answers::ReadingValue>& readings);

}  // namespace idlepoint::report
