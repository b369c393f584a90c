// How far one thing about a stage can be moved before the warm state is lost.
//
// The walk that thermal_margin (from where the stage stands, outwards) and thermal_story (from the
// safe side, towards where it stands) share.
#pragma once

#include <functional>
#include <optional>
#include <vector>

#include "circuit/circuit.hpp"
#include "solve/conditions.hpp"

namespace idlepoint::answers {

/// Where one thing, moved, ends the warm state. Either may be missing: not met on the way.
struct Edge {
  std::optional<double> reaches_one_at;  ///< The loop gain is 1: beyond, no rest is near.
  std::optional<double> too_hot_at;      ///< A junction passes its maximum before that.

  /// The one that is met first.
  [[nodiscard]] std::optional<double> first() const noexcept {
    return too_hot_at ? too_hot_at : reaches_one_at;
  }
};

/// A stage with one thing moved; the wiring stays.
struct MovedStage {
  circuit::Circuit circuit;
  solve::Conditions conditions;
};
using Mover = std::function<MovedStage(double)>;

/// The room at another temperature, kelvin. Both references must outlive it, as for the other.
[[nodiscard]] Mover move_room(const circuit::Circuit& circuit, const solve::Conditions& conditions);

/// A trimmer at another travel, 0 to 1, short of an end that has no resistance.
[[nodiscard]] Mover move_trimmer(const circuit::Circuit& circuit,
                                 const solve::Conditions& conditions,
                                 circuit::PartId trimmer);

/// The trimmers whose travel matters: there, and with their wiper on the track.
[[nodiscard]] std::vector<circuit::PartId> trimmers_that_turn(const circuit::Circuit& circuit);

/// Requires a trimmer.
[[nodiscard]] double travel_of(const circuit::Circuit& circuit, circuit::PartId trimmer);

/// From where to where a thing is moved, and how finely its edge is found.
struct Range {
  double from = 0.0;
  double to = 0.0;
  double width = 0.0;
};

/// Walks the warm state from one value to the other. No edge where the whole way has a warm state,
/// cool enough; none at all where `from` has no warm state. Cost: a warm solve from cold, then ten
/// to twenty from a neighbour.
[[nodiscard]] Edge find_edge(const Mover& move, const Range& range);

/// True where a warm state exists and no junction is above its maximum.
[[nodiscard]] bool holds_warm(const MovedStage& moved);

}  // namespace idlepoint::answers
