// The volts at every leg of every transistor and diode, to tick against the service sheet, with the
// current and how the part is working.
//
// Used by the readings and the check report.
#pragma once

#include <string>

#include "circuit/circuit.hpp"
#include "solve/operating_point.hpp"

namespace idlepoint::report {

/// "cut off", "conducting", "hard on", ...
[[nodiscard]] std::string in_words(solve::Conduction conduction);

/// A line a part, indented by two: "Q3   c 1.21 V   b -560 mV   e -1.21 V   5.0 mA   conducting".
/// Empty for a stage without such parts; a part taken out has no line. With the `cold` state beside
/// a warm one (null for none) each part has two, "cold" and "warm", the second with the temperature
/// of its junction where that is not the room's.
[[nodiscard]] std::string legs_table(const circuit::Circuit& circuit,
                                     const solve::OperatingPoint& state,
                                     const solve::OperatingPoint* cold = nullptr);

}  // namespace idlepoint::report
