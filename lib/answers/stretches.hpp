// The sizes of a suspect, each looked for in parts of its range.
//
// Curved as readings are, one fit over a whole range would miss most of it: each part is fitted by
// itself, and all count together. Used by answers/explained alone. Why: docs/how_it_diagnoses.md.
#pragma once

#include <cstddef>
#include <memory>
#include <optional>
#include <vector>

#include "answers/planned.hpp"
#include "answers/tolerance_fit.hpp"

namespace idlepoint::answers {

/// A part of the range of each size.
struct Stretch {
  std::vector<SizeStretch> bounds;
  std::optional<ToleranceFit> fit = {};
  std::shared_ptr<Planned> planned = std::make_shared<Planned>();
};

/// The ranges of all sizes in parts, every combination; of no sizes, one without bounds.
[[nodiscard]] std::vector<Stretch> stretches_of(std::size_t sizes);

/// Fits each, from the fit that it has where any has one. What has none afterwards has no state, or
/// its evidence stays below `least`, a logarithm.
void fit_stretches(std::vector<Stretch>& stretches,
                   const std::vector<Channel>& channels,
                   double least);

/// None where no stretch has a fit.
struct BestStretch {
  const Stretch* stretch = nullptr;
  double log_evidence = 0.0;  ///< Of all stretches together.
};

/// Fits that are far below the best are dropped.
[[nodiscard]] BestStretch best_of_stretches(std::vector<Stretch>& stretches);

}  // namespace idlepoint::answers
