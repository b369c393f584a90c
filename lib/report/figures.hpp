// Figures as a bench meter shows them: tenths of a millivolt, no digit that means nothing.
//
// Used by the text reports for what was calculated; what the user wrote (limits, targets, ohms)
// goes through values/format.hpp instead.
#pragma once

#include <string>

#include "answers/reading_values.hpp"

namespace idlepoint::report {

/// "22.0 mV", "850 mV", "1.96 V", "33.0 V": 0.1 mV is the smallest step shown.
[[nodiscard]] std::string volts(double volts);

/// "0.0 mA", "480 uA", "5.0 mA", "48 mA", "1.83 A": under half a microampere is zero.
[[nodiscard]] std::string amps(double amps);

/// The same without a sign, where the words say which way it flows.
[[nodiscard]] std::string size_a(double current_a);

/// "0 mW", "350 mW", "2.1 W", "115 W".
[[nodiscard]] std::string watts(double watts);

/// A calculated value in its own unit; Celsius as "25 C".
[[nodiscard]] std::string figure(double value, answers::ReadingUnit unit);

/// "25 C".
[[nodiscard]] std::string celsius(double kelvin);

/// "(3 to 15)" beside a figure of `value`, in that figure's own unit, to the digits that the band
/// itself leaves a meaning; empty where both ends come out alike.
[[nodiscard]] std::string band(double low, double high, double value, answers::ReadingUnit unit);

/// A value that the user wrote, in its own unit, to three figures: "9.4 mV", "0 V", "40 C".
[[nodiscard]] std::string as_written(double value, answers::ReadingUnit unit);

/// A difference of two such values: as `figure`, but a difference of temperatures is in kelvin.
[[nodiscard]] std::string step(double difference, answers::ReadingUnit unit);

/// A fraction in whole per cent: "37 %".
[[nodiscard]] std::string percent(double fraction);

}  // namespace idlepoint::report
