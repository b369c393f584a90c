// What a reading that jumps or drifts says of the suspects.
//
// The chances are of our own, common practice without a source: a contact jumps, what warms up
// drifts the way that its fault moves the reading. Used by the diagnosis.
#pragma once

#include "answers/explained.hpp"

namespace idlepoint::answers {

/// Adds to the evidence of each explanation what the movements in the readings say of it. Requires
/// the explanation of nothing wrong in front, or none of them fitted.
void weigh_movements(const DiagnoseAsked& asked,
                     const Evidence& evidence,
                     std::vector<Explanation>& list);

/// Of "none of these": a stage that oscillates jumps.
[[nodiscard]] double log_chance_of_movement(const circuit::BenchReading& reading);

}  // namespace idlepoint::answers
