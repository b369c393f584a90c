// How much of its own heat comes back to a stage, and what it would take to lose it.
//
// Used by the readings and preset answers where the state is warm. The room, the rails and each
// trimmer are moved, one at a time from where they are, until the warm state ends.
// Source: docs/models.md, "Heat"; docs/commands.md, "Heat".
#pragma once

#include <vector>

#include "answers/warm_edge.hpp"
#include "circuit/checked_circuit.hpp"
#include "solve/operating_point.hpp"

namespace idlepoint::answers {

/// How far a room is made hotter, and rails higher, in the search for the end of the warm state.
inline constexpr double hottest_room_tried_k = 373.15;  ///< 100 C.
inline constexpr double highest_rails_tried = 1.5;

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
/// Cost: that of `find_edge` for the room, the rails, and twice a trimmer.
[[nodiscard]] ThermalMargin find_thermal_margin(const circuit::CheckedCircuit& stage,
                                                const solve::OperatingPoint& warm);

}  // namespace idlepoint::answers
