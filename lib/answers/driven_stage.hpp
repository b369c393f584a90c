// The stage as the signal finds it: its drive point moved by hand, its loudspeaker on, all else as
// it stands at rest.
//
// What the crossover sweep is made on. Not a DC state of the drawing but a picture of it at audio
// frequencies: capacitors of 1 uF or more keep the volts they have at rest (the bootstrap, the
// output capacitor), smaller ones are open, and what listens to the output from before the drive
// point (the feedback) finds it at rest, as it would where the input moved along. Used by
// answers/gain_curve. Source: docs/commands.md, "crossover".
#pragma once

#include "circuit/checked_circuit.hpp"
#include "solve/operating_point.hpp"

namespace idlepoint::answers {

/// The drive source's own resistance. It moves the drive point by millivolts against what was set;
/// the gain is that from the drive point itself, so it is no part of any answer.
inline constexpr double drive_source_ohm = 1.0;

struct DrivenStage {
  circuit::CheckedCircuit stage;  ///< New parts and nodes appended: every id stays valid.
  circuit::PartId source;         ///< A feed into the drive point: amperes times 1 ohm are volts.
  circuit::NodeId drive;
  circuit::NodeId output;
};

/// `rest` is a state of `stage`. Requires a drive point and an output that are neither ground nor a
/// rail.
///
/// A `hold` against ground or a rail that the drive point reaches through conducting parts stands
/// in for a voltage amplifier that is not drawn: it becomes a feed of the current that it gives at
/// rest, for that is what the drawn one would give.
[[nodiscard]] DrivenStage drive_by_hand(const circuit::CheckedCircuit& stage,
                                        const solve::OperatingPoint& rest);

}  // namespace idlepoint::answers
