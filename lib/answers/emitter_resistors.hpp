// Which resistors a reading in volts lies across: one emitter resistor, or both.
//
// Millivolts across one and across both differ by a factor of two, the commonest slip at the bench,
// so every report tells them apart. Works on the drawing alone; the volts come from a state.
#pragma once

#include <optional>

#include "circuit/circuit.hpp"

namespace idlepoint::answers {

/// Above this a resistor is taken for something else than an emitter (or source) resistor.
inline constexpr double largest_emitter_resistor_ohm = 10.0;

struct ResistorsRead {
  circuit::PartId first;                  ///< At the reading's first point.
  bool is_emitter_resistor = false;       ///< `first`: at most 10 ohms, at an emitter or source.
  std::optional<circuit::PartId> second;  ///< Both are read: in series, joined at one point.
  /// Only `first` is read, and this is the like resistor of the other half, if there is exactly
  /// one.
  std::optional<circuit::PartId> opposite;
  bool shares_joint = false;  ///< `first` and `opposite` have a point in common.
};

/// None where no single resistor, and no such pair, lies between the two points. A pair is two
/// resistors of at most 10 ohms with a transistor's emitter or source at either outer end.
///
/// `opposite`: same value to 1 %, at the emitter or source of another transistor, and, where the
/// two share a joint, of the opposite polarity (resistors of parallel transistors share a joint
/// too).
[[nodiscard]] std::optional<ResistorsRead> resistors_read(const circuit::Circuit& circuit,
                                                          const circuit::VoltsBetween& points);

}  // namespace idlepoint::answers
