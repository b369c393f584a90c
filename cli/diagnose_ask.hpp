// `diagnose --ask`: proposes a measurement, takes what the meter showed, weighs the suspects again.
//
// Used by cli/diagnose.cpp alone.
#pragma once

#include "answers/diagnose.hpp"

namespace idlepoint::cli {

/// Goes on until one suspect is above 95 in 100, nothing is worth measuring, or the person stops (a
/// line `stop`, or the end of the input). An empty line passes to the next best measurement.
/// Without `speaks` nothing but complaints is said. Returns the last answer.
[[nodiscard]] answers::Diagnosis ask_on(answers::Diagnosing& diagnosing,
                                        answers::Diagnosis diagnosis,
                                        bool speaks);

}  // namespace idlepoint::cli
