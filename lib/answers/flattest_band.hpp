// Within which readings the flattest standing current lies, over sound stages of one drawing.
//
// Used by the crossover answer. A cheap band, and said so: few stages are drawn, and each is asked
// at three standing currents about the nominal flattest, with a coarser sweep; where its own
// flattest lies is taken from the parabola through the three. Draws: circuit/uncertainty, seed 1.
// Source: docs/commands.md, "crossover".
#pragma once

#include <optional>

#include "answers/bands.hpp"
#include "answers/idle_finder.hpp"

namespace idlepoint::answers {

inline constexpr std::size_t flattest_samples = 24;

struct FlattestAsked {
  std::size_t adjustment = 0;  ///< The one whose target moves.
  solve::Conditions conditions;
  double reading = 0.0;  ///< SI.
  double swing_v = 0.0;
};

/// `nominal` holds the nominal parts and a position at or near `reading` (SI), where they are
/// flattest. The mean and two standard deviations either way, of the readings' logarithms, so that
/// the band keeps its sign. None where the nominal stage is not flattest between its neighbours
/// there, where nothing is spread, and where more than half of the stages have no such standing
/// current. Cost: 72 trimmer positions and sweeps.
[[nodiscard]] std::optional<Band> flattest_band(IdleFinder& nominal, const FlattestAsked& asked);

}  // namespace idlepoint::answers
