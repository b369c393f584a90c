// Decimal numbers as digits and a power of ten, so that a prefix never costs a bit.
//
// `4k7` is 47 times ten to the 2 and is rounded to a double once, as 4700 would be; and a double is
// written with the fewest digits that read back to it. Used by quantity.cpp and format.cpp.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace idlepoint::values {

[[nodiscard]] inline bool is_digit(char c) { return c >= '0' && c <= '9'; }

/// sign x 0.DIGITS... is not used: the number is DIGITS (an integer) times 10^exponent.
struct Decimal {
  bool negative = false;
  std::string digits;  ///< At least one, '0' to '9'.
  long exponent = 0;
};

/// The nearest double. Empty where it would not be finite, or where a number that is not zero would
/// become zero.
[[nodiscard]] std::optional<double> to_double(const Decimal& decimal);

/// The shortest digits that read back to exactly `value`. Requires a finite value.
[[nodiscard]] Decimal shortest_decimal(double value);

/// `value` rounded to `digits` significant figures; trailing zeros are kept. Zero has one digit.
[[nodiscard]] Decimal rounded_decimal(double value, int digits);

/// Plain notation ("0.0224", "4700") where that is short, else with an exponent ("6e-20").
[[nodiscard]] std::string write_decimal(const Decimal& decimal);

/// Always plain: "0.0224". For exponents of a size that people read.
[[nodiscard]] std::string write_plain(const Decimal& decimal);

}  // namespace idlepoint::values
