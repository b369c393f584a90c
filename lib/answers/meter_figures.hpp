// What a meter's figure is worth: the value that a reading gives, and the standard deviation that
// the meter and the person's way of saying it leave.
//
// Used by the diagnosis. The errors of hand meters beside the stage's own `meter` are common
// practice, no source.
#pragma once

#include "circuit/bench_reading.hpp"

namespace idlepoint::answers {

/// The figure of a reading as `Shown` has it, and the standard deviation that the meter and the
/// person's way of saying it leave.
struct Observed {
  double value = 0.0;
  double deviation = 0.0;
};

/// Requires a reading with a figure (or beyond the range).
[[nodiscard]] Observed observed(const circuit::Meter& meter, const circuit::BenchReading& reading);

/// Of the meter alone, where it shows that; the ohms range in volts at its leads.
[[nodiscard]] double meter_deviation(const circuit::Meter& meter,
                                     const circuit::Measurement& measurement,
                                     double shown);

/// A reading of which a movement alone was told: it weighs nothing, and is foretold all the same.
[[nodiscard]] Observed without_figure() noexcept;

/// The other way: what a person would read off, in the measurement's own unit (kelvin).
struct ReadOff {
  double value = 0.0;
  bool beyond_range = false;
};
[[nodiscard]] ReadOff read_off(const circuit::Measurement& measurement, double shown);

}  // namespace idlepoint::answers
