// A multimeter in the hand, as parts across two points: ohms range, diode range, volts range.
//
// Added once and then switched by values alone: one compiled circuit serves any number of
// measurements (solve/state_finder's `load` takes over changed numbers). Used by `poweroff` and
// `diagnose`. Source of the figures: docs/commands.md, "poweroff".
#pragma once

#include <optional>

#include "circuit/circuit.hpp"

namespace idlepoint::circuit {

/// The ohms range: volts behind the resistance that gives its current into a short.
inline constexpr double ohms_range_v = 0.2;
inline constexpr double ohms_range_a = 1e-3;
/// The diode range: its current, and the volts at which it gives up.
inline constexpr double diode_range_a = 1e-3;
inline constexpr double diode_range_v = 2.5;

/// Beyond these the display says that there is no way through.
inline constexpr double ohms_are_open_ohm = 20e6;  ///< What a hand meter's longest range reaches.
inline constexpr double diode_is_open_v = 2.4;     ///< The limit is felt from here.

/// One range across two points, the red lead on the first: it is the positive one in the ohms and
/// the diode range.
struct HandMeter {
  enum class Range { ohms, diode, volts };
  Range range = Range::ohms;
  VoltsBetween points;            ///< What the meter looks at: red, then black.
  std::optional<PartId> feed;     ///< Ohms and diode range: drives its current into red.
  std::optional<PartId> across;   ///< The meter's own resistance; the diode range has none.
  std::optional<PartId> limiter;  ///< Diode range: takes the current over at its volts.
};

/// Adds the range's parts, not connected: 1 petaohm and no current. Requires two different nodes.
/// The other way round is a second meter with its leads exchanged.
[[nodiscard]] HandMeter add_ohms_range(Circuit& circuit, NodeId red, NodeId black);
[[nodiscard]] HandMeter add_diode_range(Circuit& circuit, NodeId red, NodeId black);
/// For a stage with its power on: the input resistance of the stage's own meter.
[[nodiscard]] HandMeter add_volts_range(Circuit& circuit, NodeId red, NodeId black);

/// Puts the leads on, takes them off: numbers change, the wiring does not. One meter at a time.
void connect(Circuit& circuit, const HandMeter& meter);
/// The diode range with the resistance that gives its volts at its current: near its own state, and
/// found from 0 V in few steps, where a current alone would first be taken for thousands of volts.
void connect_softly(Circuit& circuit, const HandMeter& meter);
void disconnect(Circuit& circuit, const HandMeter& meter);

/// What the ohms range makes of the volts at its leads; none from `ohms_are_open_ohm` on, 0 where
/// rounding has them below 0.
[[nodiscard]] std::optional<double> ohms_shown(double volts) noexcept;

/// The volts at the leads of the ohms range across a resistance.
[[nodiscard]] double volts_of_ohms(double ohms) noexcept;

/// What the diode range shows; none from `diode_is_open_v` on.
[[nodiscard]] std::optional<double> diode_shown(double volts) noexcept;

}  // namespace idlepoint::circuit
