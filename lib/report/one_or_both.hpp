// One emitter resistor or both: the sentence that keeps a factor of two out of a reading.
#pragma once

#include <optional>
#include <string>

#include "answers/reading_values.hpp"
#include "circuit/circuit.hpp"
#include "solve/operating_point.hpp"

namespace idlepoint::report {

/// "(R11)" or "(R11 and R12)": the resistors that a reading in volts lies across; empty where none.
[[nodiscard]] std::string resistors_in_brackets(const circuit::Circuit& circuit,
                                                const circuit::Probe& probe);

/// "`upper` is across one 0R22 (R11): 11.0 mV means 50 mA in it. ...", for a reading across emitter
/// resistors; none for any other.
[[nodiscard]] std::optional<std::string> one_or_both(const circuit::Circuit& circuit,
                                                     const solve::OperatingPoint& state,
                                                     const answers::ReadingValue& reading);

}  // namespace idlepoint::report
