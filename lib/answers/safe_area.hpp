// Whether a sine at full output stays inside a transistor's continuous safe area.
//
// Used by the ratings. A load line is the path of one output transistor over a cycle: its own volts
// from the moving output to its rail, its own share of the current. Source: docs/commands.md,
// "Ratings".
#pragma once

#include <optional>

#include "circuit/part_type.hpp"

namespace idlepoint::answers {

/// Amperes that the type may carry continuously at `voltage_v` across it, the power part of the
/// limit multiplied by `power_share` (0 to 1: watts allowed here over watts allowed at 25 C).
/// Between the points of `safe_area` straight on double logarithmic paper; below the first the
/// maximum current and the power; above the last on along its last line, none above the maximum
/// voltage. None where the type gives no safe area.
[[nodiscard]] std::optional<double> safe_current_a(const circuit::Ratings& ratings,
                                                   double voltage_v,
                                                   double power_share);

/// A part carries I sin t while I is positive, its volts `supply_v` - `peak_v` sin(t + phase).
struct LoadLine {
  double supply_v = 0.0;   ///< From the output's mid position to the part's rail.
  double peak_v = 0.0;     ///< Of the output.
  double peak_a = 0.0;     ///< Of this part.
  double phase_rad = 0.0;  ///< 0 into a resistance; the sign makes no difference to the path.
};

struct LoadLinePoint {
  double voltage_v = 0.0;
  double current_a = 0.0;
  double limit_a = 0.0;
};

/// Where the current comes nearest to its limit, or goes farthest beyond; 720 steps of the half
/// cycle. None where the type gives no safe area, or the line carries nothing.
[[nodiscard]] std::optional<LoadLinePoint> worst_point(const circuit::Ratings& ratings,
                                                       double power_share,
                                                       const LoadLine& line);

/// The widest angle of the load, 0 to pi/2, up to which the whole line stays within its limits,
/// found to a hundredth of a degree; `line.phase_rad` is not looked at. None without a safe area,
/// or where a plain resistance is too much already.
[[nodiscard]] std::optional<double> widest_safe_phase_rad(const circuit::Ratings& ratings,
                                                          double power_share,
                                                          LoadLine line);

}  // namespace idlepoint::answers
