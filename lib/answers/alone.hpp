// Parts of a stage taken out and tested by themselves: what they drop at a current.
//
// Used by the `swap` answer, to set an old part and its substitute side by side at the same
// current.
#pragma once

#include <optional>
#include <span>

#include "circuit/checked_circuit.hpp"

namespace idlepoint::answers {

/// A current through a part, and how warm it is then.
struct TestCurrent {
  double amps = 0.0;
  double temperature_k = 298.15;  ///< Of all the parts.
};

/// From node `high` to node `low` with `parts`, wired as in the stage, between them and nothing
/// else. None where they do not settle.
[[nodiscard]] std::optional<double> volts_alone(const circuit::CheckedCircuit& stage,
                                                std::span<const circuit::PartId> parts,
                                                const circuit::VoltsBetween& points,
                                                const TestCurrent& test);

/// Base-emitter or gate-source volts of a transistor whose emitter or source carries the current
/// with `across_v` from collector or drain to base or gate; both positive in normal use for either
/// polarity. Of a diode: its forward volts. Requires a part with a type.
[[nodiscard]] std::optional<double> control_volts(const circuit::CheckedCircuit& stage,
                                                  circuit::PartId part,
                                                  double across_v,
                                                  const TestCurrent& test);

}  // namespace idlepoint::answers
