// How likely a reading is where nothing is known: the density that "none of these" has to offer.
//
// A figure of any size is as likely as one ten times smaller, down to what the meter resolves.
// Used by the diagnosis, so that a suspect has to explain the readings better than chance does.
#pragma once

#include "answers/bench_stage.hpp"

namespace idlepoint::answers {

/// Natural logarithm, of one reading as `observed` gives it.
[[nodiscard]] double log_density_of_anything(const circuit::Circuit& circuit,
                                             const circuit::Measurement& measurement,
                                             const Observed& reading);

}  // namespace idlepoint::answers
