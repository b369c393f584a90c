// What a point asks of the fit: the value it pulls to, how hard, and the window that must hold.
//
// Used by answers/fit. Gains and currents are compared in logarithm, volts as they are.
#pragma once

#include <optional>

#include "circuit/type_points.hpp"

namespace idlepoint::answers {

/// Numbers on the target's own scale (`scaled`).
struct FitTarget {
  bool is_logarithmic = true;
  std::optional<double> aim;
  double spread = 1.0;  ///< How well the aim is known: one standard deviation.
  std::optional<double> low;
  std::optional<double> high;
  double margin = 0.0;  ///< The window is kept with this much to spare.
};

/// Without `within` a value is known to 5 %, volts to 10 mV or 1 %, whichever is more; the middle
/// of a window as an even spread over it is.
[[nodiscard]] FitTarget target_of(const circuit::TypePoint& point);

/// A quantity on the target's scale, and back.
[[nodiscard]] double scaled(const FitTarget& target, double value);
[[nodiscard]] double unscaled(const FitTarget& target, double number);

}  // namespace idlepoint::answers
