// How much of its own heat comes back to a stage, and what it would take to lose it.
//
// Used by the readings and preset answers where the state is warm. The room, the rails and each
// trimmer are moved, one at a time from where they are, until the warm state ends.
// Source: docs/models.md, "Heat"; docs/commands.md, "Heat".
#pragma once

#include <optional>
#include <vector>

#include "circuit/checked_circuit.hpp"
#include "solve/operating_point.hpp"

namespace idlepoint::answers {

/// How far a room is made hotter, and rails higher, in the search for the end of the warm state.
inline constexpr double hottest_room_tried_k = 373.15;  ///< 100 C.
inline constexpr double highest_rails_tried = 1.5;

/// Where one thing, moved from its present value, ends the warm state. Either may be missing: not
/// met within the range that is searched.
struct Edge {
  std::optional<double> reaches_one_at;  ///< The loop gain is 1: beyond, no rest is near.
  /// A junction passes its maximum before that.
  std::optional<double> too_hot_at;

  /// The one that is met first.
  [[nodiscard]] std::optional<double> first() const noexcept {
    return too_hot_at ? too_hot_at : reaches_one_at;
  }
};

/// Either way from where it stands. A travel, 0 to 1.
struct TrimmerEdges {
  circuit::PartId trimmer;
  Edge towards_a;
  Edge towards_b;
};

struct ThermalMargin {
  double loop_gain = 0.0;  ///< What of each extra watt comes back; the margin is 1 less this.
  Edge ambient_k;          ///< Kelvin, up to `hottest_room_tried_k`.
  Edge rails;              ///< Fraction, all rails together, up to `highest_rails_tried`.
  std::vector<TrimmerEdges> trimmers;  ///< Those of the circuit, in its order.
};

/// `warm` is the warm state of `stage`. Found to 0.1 K, 0.1 % of the rails, 0.1 % of the track.
/// Cost: some ten warm solves an edge that is met, one for an edge that is not.
[[nodiscard]] ThermalMargin find_thermal_margin(const circuit::CheckedCircuit& stage,
                                                const solve::OperatingPoint& warm);

}  // namespace idlepoint::answers
