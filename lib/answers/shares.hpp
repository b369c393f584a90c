// Whose tolerance it is: how much of the variance of a reading, or of a trimmer's position, each
// part brings.
//
// Used by the spread answer. First order: exact slopes at the nominal parts (solve/sensitivity),
// every draw even over its width, so that variances add. Source: [JCGM100] 5.1.
#pragma once

#include <string>
#include <vector>

#include "circuit/checked_circuit.hpp"
#include "circuit/uncertainty.hpp"
#include "solve/conditions.hpp"

namespace idlepoint::answers {

/// What one draw brings. Parts that are matched have one draw a field together, and one each for
/// the stated difference.
struct Share {
  std::vector<circuit::Parameter> parameters;  ///< Moved together; one, but for matched parts.
  double per_percent = 0.0;  ///< What 1 % more of them does: SI, kelvin; travel of a position.
  double share = 0.0;        ///< Of the variance, 0 to 1; of one quantity they add to 1.
};

/// Of one quantity, the largest first; empty where nothing moves it.
struct Shares {
  std::vector<Share> parts;
  double deviation = 0.0;  ///< First-order standard deviation, SI.
};

struct SharesOfAll {
  std::vector<Shares> readings;   ///< [probes] the trimmers as they stand.
  std::vector<Shares> positions;  ///< [following] each keeping its reading.
};

/// At the state of `conditions`; all empty where that is not to be had.
[[nodiscard]] SharesOfAll find_shares(const circuit::CheckedCircuit& stage,
                                      const solve::Conditions& conditions,
                                      const circuit::Uncertainty& uncertainty,
                                      const std::vector<circuit::Adjustment>& following);

}  // namespace idlepoint::answers
