// What lies between exact solves: a smooth curve through points, without overshoot.
//
// Used by answers/slider_grid, which refines its grid until this curve is near enough, and by the
// tests; lib/report/page/between.js draws by the same formula. Source: [FritschButland1984].
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

namespace idlepoint::answers {

/// The interval of `axis` (ascending, two entries or more) that holds `x`: the index of its lower
/// end. Beyond an end: the first or the last interval.
[[nodiscard]] std::size_t interval_of(const std::vector<double>& axis, double x);

/// Values at the four places around an interval: the one before its lower end, its two ends, the
/// one after its upper end. The outer two are missing at an end of the axis, and where the stage
/// has no state there.
struct Around {
  std::optional<double> before;
  double low = 0.0;
  double high = 0.0;
  std::optional<double> after;
};

/// At `x` within interval `index` of `axis`: the cubic that takes both end values, and at each end
/// the slope that the two neighbouring chords allow without overshoot (0 where they differ in
/// sign; the chord's own where there is one alone). The four values have the axis' places.
[[nodiscard]] double between(const std::vector<double>& axis,
                             std::size_t index,
                             const Around& values,
                             double x);

}  // namespace idlepoint::answers
