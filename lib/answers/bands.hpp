// Within what a sound stage of this drawing may read, and where its trimmers may finish.
//
// Expanded uncertainty at 95 % [JCGM100]: every tolerance and spread (circuit/uncertainty) through
// the exact sensitivities, coverage factor 2; where the reading bends too much for that, the 2.5
// and 97.5 % points of sampled stages [JCGM101]. Used by the readings and preset answers; the
// rules: docs/commands.md, "Bands".
#pragma once

#include <optional>
#include <vector>

#include "circuit/checked_circuit.hpp"
#include "solve/conditions.hpp"

namespace idlepoint::answers {

/// Of a reading: SI, kelvin. Of a position: travel, 0 to 1.
struct Band {
  double low = 0.0;
  double high = 0.0;
  bool bends = false;  ///< Not from the linear sum: sampled, or solved anew at its ends.
  double lost = 0.0;   ///< Share of the sampled stages that find no rest; they are left out.
};

struct Bands {
  std::vector<std::optional<Band>> readings;    ///< [probes] trimmers as they stand.
  std::vector<std::optional<Band>> as_metered;  ///< [probes] volts alone: meter and its error.
  std::vector<std::optional<Band>> positions;  ///< [adjustments] none where a trimmer is at an end.
};

/// From the 2.5 to the 97.5 % point of sampled values, in any order. Requires at least one.
[[nodiscard]] Band middle_95(std::vector<double> values);

/// What the band of a reading is sampled with.
inline constexpr std::size_t band_samples = 10000;
inline constexpr std::uint64_t band_seed = 1;

/// Of the readings `probes` and of the trimmers `following` (all of them together, each keeping its
/// adjustment's reading at what it is now) at the state of `conditions`. Entries are empty where no
/// state was found.
[[nodiscard]] Bands find_bands(const circuit::CheckedCircuit& stage,
                               const solve::Conditions& conditions,
                               const std::vector<circuit::Probe>& probes,
                               const std::vector<circuit::Adjustment>& following);

}  // namespace idlepoint::answers
