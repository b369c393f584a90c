// What a heap of sampled values says: its middle, its width, and between which values 19 in 20 lie.
//
// Used by the bands and the spread answer. Source: [JCGM101] 7.6 and 7.7.
#pragma once

#include <optional>
#include <vector>

namespace idlepoint::answers {

struct Distribution {
  double mean = 0.0;
  double deviation = 0.0;  ///< Standard deviation; 0 of a single value.
  double p2_5 = 0.0;       ///< One value in 40 is smaller.
  double p50 = 0.0;
  double p97_5 = 0.0;
};

/// The value below which the share `part` (0 to 1) of `sorted` lies, straight between neighbours.
/// Requires a value.
[[nodiscard]] double value_below_which(double part, const std::vector<double>& sorted);

/// None of an empty heap. The order of the values does not matter but for the last bits.
[[nodiscard]] std::optional<Distribution> distribution_of(std::vector<double> values);

}  // namespace idlepoint::answers
