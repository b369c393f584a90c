// A measurement in words: where the leads go, what the meter would show, and how to take it without
// harm.
//
// Used by the diagnosis' text and JSON. No number is made here.
#pragma once

#include <string>

#include "answers/diagnose.hpp"

namespace idlepoint::report {

/// "volts e5 to out (R610)", "ohms hi to lo, red lead on hi, power off", "amps through R11".
[[nodiscard]] std::string measurement_in_words(const circuit::Circuit& circuit,
                                               const circuit::Measurement& measurement);

/// A value in the measurement's own unit as a meter would show it: "-8.00 V", "1k9".
[[nodiscard]] std::string shown_in_words(const circuit::Measurement& measurement, double value);

/// The same with its band in brackets: "-8.0 V (-9 to -7)"; "open" beyond the range.
[[nodiscard]] std::string expected_in_words(const circuit::Measurement& measurement,
                                            const answers::Expected& expected);

/// A reading as the person gave it: "upper 9.14 mV", "spread about 2 V", "upper jumps".
[[nodiscard]] std::string reading_in_words(const circuit::BenchReading& reading);

/// How to take it: which lead is hooked on first, with the power on or off, and where a slip of the
/// probe would join a base to a rail. Sentences with their full stops.
[[nodiscard]] std::string how_to_take(const circuit::Circuit& circuit,
                                      const circuit::Measurement& measurement);

}  // namespace idlepoint::report
