// How far one thing about a stage can be moved before the warm state is lost.
//
// The search that thermal_margin (outwards, until it is lost) and what_would_hold (inwards, until
// it is found) share.
#pragma once

#include <functional>
#include <optional>
#include <vector>

#include "circuit/circuit.hpp"
#include "solve/conditions.hpp"

namespace idlepoint::answers {

/// A stage with one thing moved.
struct MovedStage {
  circuit::Circuit circuit;
  solve::Conditions conditions;
};
using Mover = std::function<MovedStage(double)>;

/// The room at another temperature, kelvin. Both references must outlive it, as for the other.
[[nodiscard]] Mover move_room(const circuit::Circuit& circuit, const solve::Conditions& conditions);

/// A trimmer at another travel, 0 to 1.
[[nodiscard]] Mover move_trimmer(const circuit::Circuit& circuit,
                                 const solve::Conditions& conditions,
                                 circuit::PartId trimmer);

/// The trimmers whose travel matters: there, and with their wiper on the track.
[[nodiscard]] std::vector<circuit::PartId> trimmers_that_turn(const circuit::Circuit& circuit);

/// Requires a trimmer.
[[nodiscard]] double travel_of(const circuit::Circuit& circuit, circuit::PartId trimmer);

/// What is looked for in a warm state.
struct WarmLook {
  double loop_gain = 0.0;
  double excess_k = 0.0;   ///< Of the hottest junction over its maximum; negative below it.
  double hottest_k = 0.0;  ///< Of all heated parts.
};

/// The warm state of a stage with the junctions' maxima lifted to 400 C. None where there is none
/// below, or its loop gain reaches 1.
[[nodiscard]] std::optional<WarmLook> look_warm(const MovedStage& moved);

/// True where a warm state exists and no junction is above its maximum.
[[nodiscard]] bool holds_warm(const MovedStage& moved);

/// The last value, from `holding` towards `failing`, at which `holds` is true, to `width`.
/// Requires that it holds at the first and not at the second.
[[nodiscard]] double last_holding(const std::function<bool(double)>& holds,
                                  double holding,
                                  double failing,
                                  double width);

}  // namespace idlepoint::answers
