// The linear sum of independent draws: half-widths, and the way along which they tell most.
//
// What the bands of readings and of a hand meter's figures share. Source: [JCGM100].
#pragma once

#include <vector>

namespace idlepoint::answers {

/// Slopes of one quantity by each draw, at the draws' middle (circuit/uncertainty).
using DrawSlopes = std::vector<double>;

inline constexpr double coverage_factor = 2.0;
/// Of the half-width: where the second-order term is more, the band is sampled.
inline constexpr double largest_bend = 0.1;

/// One standard deviation of a draw that is even over -1 to 1.
[[nodiscard]] double deviation_of_a_draw() noexcept;

/// Expanded uncertainty of the linear sum, coverage factor 2.
[[nodiscard]] double half_width(const DrawSlopes& slopes);

/// All draws moved along the steepest way of one quantity by so many of its standard deviations, as
/// far as the draws reach.
[[nodiscard]] std::vector<double> along(const DrawSlopes& slopes, double deviations);

}  // namespace idlepoint::answers
