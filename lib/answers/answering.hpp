// "What does the standing current hear?": how it answers to the base volts and to the gain of each
// transistor, the trimmers where they stand.
//
// Used by `swap`: base volts move a standing current, gain mostly does not, but in some stages it
// does. Source: docs/commands.md, "What the standing current hears".
#pragma once

#include <optional>
#include <vector>

#include "circuit/checked_circuit.hpp"
#include "solve/conditions.hpp"

namespace idlepoint::answers {

/// Part by which volts are compared: what two transistors of one batch may differ by.
inline constexpr double compared_step_v = 0.010;

/// One part and one reading. Changes are in the reading's SI unit.
struct Answering {
  circuit::PartId part;
  circuit::ReadingId reading;
  double value = 0.0;  ///< As it stands.
  /// What `compared_step_v` less from base to emitter (gate to source, along a diode) at the same
  /// current does: the exact slope times the step, so a guide for large steps.
  std::optional<double> by_lower_volts = {};
  std::optional<double> by_half_gain = {};    ///< Bipolar alone; none where no state is found.
  std::optional<double> by_double_gain = {};  ///< The same.
};

/// The readings that `adjust` statements set and that follow the standing current: all but the
/// output's own volts to ground.
[[nodiscard]] std::vector<circuit::ReadingId> standing_current_readings(
    const circuit::Circuit& circuit);

/// For each of those readings each of `parts`, in their order; parts without a type are passed
/// over. In the state that `conditions` ask for, the heat following where that is warm; empty where
/// it is not found. Cost: one state with its slopes, and two solves a bipolar transistor.
[[nodiscard]] std::vector<Answering> how_it_answers(const circuit::CheckedCircuit& stage,
                                                    const solve::Conditions& conditions,
                                                    const std::vector<circuit::PartId>& parts);

/// Gain matters where halving or doubling it moves the reading by more than a tenth.
[[nodiscard]] bool gain_matters(const Answering& answering) noexcept;

}  // namespace idlepoint::answers
