// What a trimmer's ends and a lifted wiper do, in words.
//
// Used by the preset report alone.
#pragma once

#include <string>

#include "answers/preset.hpp"
#include "circuit/circuit.hpp"

namespace idlepoint::report {

/// What the reading and the rails do at both ends, the safe end first.
[[nodiscard]] std::string both_ends(const circuit::Circuit& circuit,
                                    const answers::TrimmerAnswer& answer);

/// What a lifted wiper does; both answers where the spare leg is unknown.
[[nodiscard]] std::string lifted_wiper(const circuit::Circuit& circuit,
                                       const answers::TrimmerAnswer& answer);

}  // namespace idlepoint::report
