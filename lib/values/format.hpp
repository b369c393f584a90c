// Writes values as the trade does: 22.4 mV, 0R33, 2k2, 37 %.
//
// Used by every report and complaint; the numbers in JSON do not pass through here.
#pragma once

#include <string>

#include "values/unit.hpp"

namespace idlepoint::values {

/// A value for people: SI prefix, a space, the unit, `digits` significant figures, trailing zeros
/// kept only where they mean something: (0.0224, volt) is "22.4 mV", (0.052, ampere) "52 mA".
/// Ohms are written by `format_ohms`; a temperature is given in kelvin and written in C; a fraction
/// with `percent` is written in %. -0 is written as 0. A value under half of `floor` is written as
/// zero in the floor's own prefix: (3e-7, volt, 3, 1e-4) is "0.0 mV".
[[nodiscard]] std::string format_value(double value, Unit unit, int digits = 3, double floor = 0.0);

/// Ohms as IEC 60062 writes them, to at most `digits` significant figures: 354R, 0R33, 2k2, 1M0.
[[nodiscard]] std::string format_ohms(double ohms, int digits = 3);

/// A value that `read_value` reads back to exactly the same double, with its unit: "0.0224V".
[[nodiscard]] std::string write_value(double value, Unit unit);

}  // namespace idlepoint::values
