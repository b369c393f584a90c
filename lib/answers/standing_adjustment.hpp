// Which trimmer sets the standing current, and on which reading that is seen.
//
// Used by the crossover answer, and through it by `preset` where a file says nothing. Source:
// docs/commands.md, "crossover".
#pragma once

#include <optional>
#include <string>
#include <variant>

#include "circuit/checked_circuit.hpp"
#include "solve/conditions.hpp"

namespace idlepoint::answers {

struct StandingAdjustment {
  /// With the adjustment among its `adjustments`, and its reading among its `readings`: the file's
  /// own, or ones that the file lacks. Every id stays valid.
  circuit::CheckedCircuit stage;
  std::size_t adjustment = 0;  ///< Among `stage->adjustments`.
  bool is_makers = false;      ///< The file has it: its target is the maker's figure.
};

/// The first `adjust` of the file whose reading tells the standing current: volts across emitter
/// (source) resistors, amps, watts. Where there is none: the trimmer that moves the standing
/// current most from end to end, but not one that sets the output's volts, and what moves furthest
/// there of the readings across emitter resistors, else of the file's readings in amps. Where the
/// file has no such reading either, one is made, named after the resistor: across the emitter
/// resistor of the transistor that gives the load its current, or, without one, amps of the first
/// rail. An `adjust` of that trimmer by another reading (the volts of its bias string) is replaced.
///
/// A sentence where there is no such trimmer. Cost: five cold solves a trimmer.
[[nodiscard]] std::variant<StandingAdjustment, std::string> find_standing_adjustment(
    const circuit::CheckedCircuit& stage, const solve::Conditions& conditions);

}  // namespace idlepoint::answers
