// Why a type of the shelf would do for a place or not, in one line.
//
// Used by the text and the JSON of `shelf`.
#pragma once

#include <string>

#include "answers/shelf.hpp"

namespace idlepoint::report {

/// "least in hand is the safe area, 35 %; VR602 near 97R", or what keeps it out.
[[nodiscard]] std::string reason_of(const answers::Shelf& shelf,
                                    const answers::Candidate& candidate);

}  // namespace idlepoint::report
