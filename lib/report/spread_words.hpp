// How often, and whose it is, as one says it across the bench.
//
// Used by the spread report.
#pragma once

#include <string>
#include <vector>

#include "answers/shares.hpp"
#include "circuit/circuit.hpp"

namespace idlepoint::report {

/// "about 3 in 10", "4 in 100", "2 in 1000", "none of 10000", "more than 99 in 100", "every one":
/// as many figures as so many stages can tell.
[[nodiscard]] std::string odds_in_words(double share, std::size_t stages);

/// "nearly all", "two thirds", "a quarter", "a twentieth".
[[nodiscard]] std::string fraction_in_words(double share);

/// "Q604's saturation current", "R611", "the track of VR602", "the volts of vpos", "the gain that
/// Q507 and Q517 have in common".
[[nodiscard]] std::string parameters_in_words(const circuit::Circuit& circuit,
                                              const std::vector<circuit::Parameter>& parameters);

}  // namespace idlepoint::report
