// "What runs hot here?": every part above half of the watts it may have, at rest and played loud.
//
// Used by the readings answer. Source: docs/commands.md, "What runs hot"; half of a resistor's
// rating as what it is asked for day and night is common practice.
#pragma once

#include <optional>
#include <vector>

#include "answers/full_output.hpp"
#include "circuit/checked_circuit.hpp"
#include "solve/operating_point.hpp"

namespace idlepoint::answers {

/// One part in one state; a part that is hot in both stands twice.
struct HotPart {
  circuit::PartId part;
  bool is_played_loud = false;  ///< Else at rest.
  double power_w = 0.0;
  double rating_w = 0.0;  ///< A resistor's `power`; of others what they may have, warm as they are.
  /// Resistors above two thirds of their rating: the next wattage that is sold which these watts
  /// fill to two thirds at most. None above 50 W.
  std::optional<double> suggested_w = {};
};

struct HotList {
  std::vector<HotPart> parts;             ///< The fullest first.
  std::optional<FullOutput> full_output;  ///< Where the stage was played.
};

/// At rest: resistors with a `power`, parts with a type that says what they stand. Played loud:
/// those resistors, and transistors that carry or drive the load's current. Loud is left out with
/// the rails below 95 %, where the output does not lie between the rails, and where a part is above
/// its rating at rest.
[[nodiscard]] HotList find_hot(const circuit::CheckedCircuit& stage,
                               const solve::OperatingPoint& state);

}  // namespace idlepoint::answers
