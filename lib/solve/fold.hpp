// Where a followed rest will end, from its last two loop gains.
//
// At such an end (a fold) the loop gain is 1, and 1 less the gain falls with the square root of the
// distance: its square is a straight line near by. Used by solve/state_finder, which follows the
// thermal resistances up, and by answers/warm_edge.
#pragma once

#include <optional>

namespace idlepoint::solve {

/// A rest on the way: how far along, in any unit, and its thermal loop gain, below 1.
struct OnTheWay {
  double at = 0.0;
  double loop_gain = 0.0;
};

/// The place ahead at which (1 - loop gain) squared, extrapolated in a straight line, is 0. None
/// where it does not fall. Good to the distance left where the gain is above 0.9; a guess before.
[[nodiscard]] inline std::optional<double> fold_ahead(const OnTheWay& before,
                                                      const OnTheWay& now) noexcept {
  const auto squared = [](double value) { return value * value; };
  const double was = squared(1.0 - before.loop_gain);
  const double is = squared(1.0 - now.loop_gain);
  if (!(is < was)) return std::nullopt;
  return now.at + (now.at - before.at) * is / (was - is);
}

/// Above this the place that `fold_ahead` gives is to be trusted.
inline constexpr double gain_near_a_fold = 0.9;

}  // namespace idlepoint::solve
