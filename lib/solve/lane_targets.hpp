// Which numbers of the compiled system each uncertain parameter moves.
//
// Used by solve/lane_plan alone.
#pragma once

#include <optional>
#include <vector>

#include "solve/lane_plan.hpp"

namespace idlepoint::solve {

/// Empty where a parameter moves more than lanes can: an ideality, a band gap.
[[nodiscard]] std::optional<std::vector<LaneTarget>> lane_targets(
    const circuit::Circuit& circuit, const System& system, const circuit::Uncertainty& uncertainty);

}  // namespace idlepoint::solve
