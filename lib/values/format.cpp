#include "values/format.hpp"

#include <algorithm>
#include <cmath>

#include "values/constants.hpp"
#include "values/decimal.hpp"

namespace idlepoint::values {
namespace {

struct Prefix {
  long exponent;  ///< Power of ten.
  std::string_view letter;
};

constexpr Prefix prefixes[] = {
    {9, "G"}, {6, "M"}, {3, "k"}, {0, ""}, {-3, "m"}, {-6, "u"}, {-9, "n"}, {-12, "p"}, {-15, "f"}};

// The prefix that leaves one to three digits before the point.
Prefix prefix_for(const Decimal& decimal) {
  const long leading = static_cast<long>(decimal.digits.size()) + decimal.exponent - 1;
  for (const Prefix& prefix : prefixes) {
    if (leading >= prefix.exponent) return prefix;
  }
  return prefixes[std::size(prefixes) - 1];
}

bool takes_prefix(Unit unit) {
  switch (unit) {
    case Unit::none:
    case Unit::temperature:
    case Unit::kelvin:
    case Unit::kelvin_per_watt:
    case Unit::joule_per_kelvin:
    case Unit::percent:
    case Unit::tolerance:
    case Unit::ppm_per_kelvin:
    case Unit::per_volt:
      return false;
    default:
      return true;
  }
}

// The number as people speak of it: C for kelvin, % for a fraction, ppm for 1e-6.
double shown_number(double value, Unit unit) {
  switch (unit) {
    case Unit::temperature:
      return celsius_from_kelvin(value);
    case Unit::percent:
    case Unit::tolerance:
      return value * 100.0;
    case Unit::ppm_per_kelvin:
      return value * 1e6;
    default:
      return value;
  }
}

// Zeros at the end of the digits that stand behind the point say nothing.
void drop_empty_decimals(Decimal& decimal) {
  while (decimal.exponent < 0 && decimal.digits.size() > 1 && decimal.digits.back() == '0') {
    decimal.digits.pop_back();
    ++decimal.exponent;
  }
}

std::string with_unit(const std::string& number, std::string_view prefix, Unit unit) {
  const std::string behind = std::string(prefix) + std::string(symbol(unit));
  if (behind.empty()) return number;
  return unit == Unit::per_volt ? number + behind : number + " " + behind;
}

// Zero where nothing under `floor` is known: "0.0 mV" for a floor of 0.1 mV.
std::string write_zero(Unit unit, double floor) {
  if (floor <= 0.0 || !takes_prefix(unit)) return with_unit("0", "", unit);
  const Decimal step = rounded_decimal(floor, 1);
  // The step is one unit of the first decimal: 1e-4 V stands in millivolts.
  Decimal tenfold = step;
  tenfold.exponent += 1;
  return with_unit("0.0", prefix_for(tenfold).letter, unit);
}

std::string format_with_prefix(double value, Unit unit, int digits) {
  Decimal decimal = rounded_decimal(value, digits);
  const Prefix prefix = prefix_for(decimal);
  if (std::abs(value) < 1e-15 || std::abs(value) >= 1e12) {
    return with_unit(write_decimal(decimal), "", unit);
  }
  decimal.exponent -= prefix.exponent;
  drop_empty_decimals(decimal);
  return with_unit(write_plain(decimal), prefix.letter, unit);
}

}  // namespace

std::string format_value(double value, Unit unit, int digits, double floor) {
  if (!std::isfinite(value)) return "?";
  if (unit == Unit::ohm) return format_ohms(value, digits);
  const double shown = shown_number(value, unit);
  if (shown == 0.0 || std::abs(shown) < floor / 2) return write_zero(unit, floor);
  if (takes_prefix(unit)) return format_with_prefix(shown, unit, digits);
  Decimal decimal = rounded_decimal(shown, digits);
  drop_empty_decimals(decimal);
  return with_unit(write_decimal(decimal), "", unit);
}

std::string format_ohms(double ohms, int digits) {
  if (!std::isfinite(ohms)) return "?";
  if (ohms == 0.0) return "0R";
  Decimal decimal = rounded_decimal(ohms, digits);
  const long leading = static_cast<long>(decimal.digits.size()) + decimal.exponent - 1;
  const Prefix prefix = leading < -3  ? Prefix{-3, "m"}
                        : leading < 3 ? Prefix{0, "R"}
                                      : prefix_for(decimal);
  decimal.exponent -= prefix.exponent;
  drop_empty_decimals(decimal);
  std::string text = write_plain(decimal);
  const std::size_t point = text.find('.');
  if (prefix.letter == "m") return text + "R";
  if (point != std::string::npos) {
    text.replace(point, 1, prefix.letter);
    return text;
  }
  // A whole number below ten keeps the zero that a parts list prints: 1M0, 2k0; ohms do not.
  const bool one_digit = text.size() == (ohms < 0 ? 2U : 1U);
  text += prefix.letter;
  if (one_digit && prefix.exponent >= 3 && digits > 1) text += "0";
  return text;
}

std::string write_value(double value, Unit unit) {
  Decimal decimal = shortest_decimal(value);
  if (unit == Unit::percent || unit == Unit::tolerance) decimal.exponent += 2;
  if (unit == Unit::ppm_per_kelvin) decimal.exponent += 6;
  const std::string number = write_decimal(decimal);
  // A temperature is kept in kelvin: subtracting 273.15 and adding it again would cost a bit.
  return number + std::string(unit == Unit::temperature ? "K" : symbol(unit));
}

}  // namespace idlepoint::values
