// Preferred values: what a resistor drawer holds.
//
// Used where an answer proposes another resistor. Source: [IEC60063] in docs/sources.md.
#pragma once

namespace idlepoint::values {

/// The value of the E24 series nearest to `value` on a scale of ratios, any decade. Requires a
/// finite value > 0.
[[nodiscard]] double nearest_e24(double value);

/// The next value of the series above (`up`) or below an E24 value. Requires a value > 0; one
/// between two of the series gives the nearer neighbour on that side.
[[nodiscard]] double next_e24(double value, bool up);

}  // namespace idlepoint::values
