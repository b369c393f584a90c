// Where Newton stands: the unknowns, and the voltage at which each junction was last evaluated.
//
// Kept between solves of neighbouring variants as the warm start. No allocation after `resize`.
#pragma once

#include <array>
#include <vector>

#include "solve/system.hpp"

namespace idlepoint::solve {

struct State {
  /// [unknowns + 1] volts of each group's root; the last is ground and stays 0.
  std::vector<double> x;
  std::vector<double> diode_v;                   ///< One junction's own voltage.
  std::vector<double> feed_v;                    ///< `from` to `into`.
  std::vector<std::array<double, 2>> bipolar_v;  ///< {ube, ubc}, mirrored for a pnp.
  std::vector<std::array<double, 2>> fet_v;      ///< {ugs, ugs - n uds}, mirrored for a p kind.
  /// The next limited pass takes every junction where it is remembered, wherever the points stand.
  bool holds_junctions = false;
};

/// Where a solve without a guess begins: all points at 0 V, base-emitter junctions and diodes
/// carrying about a third of a milliampere, as those of an amplifier do (4 scale voltages below the
/// critical one; at it, a cold start takes two steps more), base-collector junctions reversed, FETs
/// lightly conducting.
[[nodiscard]] State cold_start(const System& system, const Numbers& numbers);

/// Where a stage stands that nothing feeds: no volts anywhere.
[[nodiscard]] State dead_start(const System& system, const Numbers& numbers);

}  // namespace idlepoint::solve
