// The warm-up as lines: a reading or a heat sink each, the marks of a clock across.
//
// Used by the warmup report alone.
#pragma once

#include <string>

#include "answers/warmup.hpp"

namespace idlepoint::report {

/// From "on" to "warm", and after which time each is within 2 % of its last value. Of a stage that
/// never comes to rest the last column is the time at which it was left. Empty without quantities.
[[nodiscard]] std::string course_table(const answers::Warmup& answer);

/// Before, at the end of the disturbance, the farthest and when, and how long after the end it is
/// back within 2 %.
[[nodiscard]] std::string disturbed_table(const answers::Warmup& answer,
                                          const answers::Disturbed& disturbed);

}  // namespace idlepoint::report
