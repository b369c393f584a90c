// A reading in amperes or watts as weights: how much each pole's terminal current counts.
//
// A lead's current is the sum over the terminals that belong to it; an ideal branch's current is
// the weighted sum of all that leaves the points around it. Used by solve/probe_gradient and by the
// lanes of a batch.
#pragma once

#include <utility>
#include <vector>

#include "solve/ideal_currents.hpp"
#include "solve/system.hpp"

namespace idlepoint::solve {

struct TerminalWeights {
  std::vector<double> by_point;                 ///< [points] for every terminal there.
  std::vector<std::pair<Owner, double>> leads;  ///< Beside that, for one lead of a part.

  /// Of the current that leaves `point` into the terminal of `owner`.
  [[nodiscard]] double at(const Owner& owner, Index point) const;
};

/// Adds `factor` times the current from a to b through an ideal branch.
void add_ideal(const IdealCurrents& ideals,
               std::size_t ideal,
               double factor,
               TerminalWeights& weights);

/// Adds `factor` times the current into the lead of `owner`.
void add_lead(const System& system,
              const IdealCurrents& ideals,
              const Owner& owner,
              double factor,
              TerminalWeights& weights);

}  // namespace idlepoint::solve
