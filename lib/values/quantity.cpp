#include "values/quantity.hpp"

#include <cstddef>
#include <optional>
#include <span>
#include <utility>

#include "values/constants.hpp"
#include "values/decimal.hpp"
#include "values/quantity_slips.hpp"

namespace idlepoint::values {
namespace {

std::size_t count_digits(std::string_view text) {
  std::size_t count = 0;
  while (count < text.size() && is_digit(text[count])) ++count;
  return count;
}

std::string_view take(std::string_view& text, std::size_t count) {
  const std::string_view taken = text.substr(0, count);
  text.remove_prefix(count);
  return taken;
}

struct Spelling {
  std::string_view text;
  long exponent;
};

constexpr Spelling prefix_spellings[] = {{"f", -15},
                                         {"p", -12},
                                         {"n", -9},
                                         {"u", -6},
                                         {"\u00b5", -6},  // micro sign
                                         {"\u03bc", -6},  // Greek mu: looks the same
                                         {"m", -3},
                                         {"k", 3},
                                         {"M", 6},
                                         {"G", 9}};

// The ways to write the unit; the exponent is what one such unit is worth.
std::span<const Spelling> unit_spellings(Unit unit) {
  static constexpr Spelling ohm[] = {{"R", 0}, {"ohm", 0}, {"\u03a9", 0}, {"\u2126", 0}};
  static constexpr Spelling volt[] = {{"V", 0}};
  static constexpr Spelling ampere[] = {{"A", 0}};
  static constexpr Spelling watt[] = {{"W", 0}};
  static constexpr Spelling farad[] = {{"F", 0}};
  static constexpr Spelling henry[] = {{"H", 0}};
  static constexpr Spelling kelvin[] = {{"K", 0}};
  static constexpr Spelling kelvin_per_watt[] = {{"K/W", 0}};
  static constexpr Spelling joule_per_kelvin[] = {{"J/K", 0}};
  static constexpr Spelling percent[] = {{"%", -2}};
  static constexpr Spelling second[] = {{"s", 0}};
  static constexpr Spelling ppm_per_kelvin[] = {{"ppm/K", -6}};
  static constexpr Spelling volt_per_kelvin[] = {{"V/K", 0}};
  static constexpr Spelling ampere_per_volt2[] = {{"A/V2", 0}};
  static constexpr Spelling per_volt[] = {{"/V", 0}};
  static constexpr Spelling electronvolt[] = {{"eV", 0}};
  static constexpr Spelling hertz[] = {{"Hz", 0}};
  switch (unit) {
    case Unit::ohm:
      return ohm;
    case Unit::volt:
      return volt;
    case Unit::ampere:
      return ampere;
    case Unit::watt:
      return watt;
    case Unit::farad:
      return farad;
    case Unit::henry:
      return henry;
    case Unit::kelvin:
      return kelvin;
    case Unit::kelvin_per_watt:
      return kelvin_per_watt;
    case Unit::joule_per_kelvin:
      return joule_per_kelvin;
    case Unit::percent:
    case Unit::tolerance:
      return percent;
    case Unit::second:
      return second;
    case Unit::ppm_per_kelvin:
      return ppm_per_kelvin;
    case Unit::volt_per_kelvin:
      return volt_per_kelvin;
    case Unit::ampere_per_volt2:
      return ampere_per_volt2;
    case Unit::per_volt:
      return per_volt;
    case Unit::electronvolt:
      return electronvolt;
    case Unit::hertz:
      return hertz;
    case Unit::none:
    case Unit::temperature:
      return {};
  }
  return {};
}

bool may_carry_prefix(Unit unit) {
  return unit != Unit::percent && unit != Unit::tolerance && unit != Unit::ppm_per_kelvin;
}

// The power of ten of a whole unit such as "V" or "%"; of nothing, where a bare number will do.
std::optional<long> unit_exponent(std::string_view text, Unit unit) {
  if (text.empty()) {
    if (unit == Unit::percent || unit == Unit::tolerance) return std::nullopt;
    return unit == Unit::ppm_per_kelvin ? -6 : 0;
  }
  for (const Spelling& spelling : unit_spellings(unit)) {
    if (text == spelling.text) return spelling.exponent;
  }
  return std::nullopt;
}

// The prefix that `text` begins with, taken off; K is kilo where ohms are expected.
std::optional<long> take_prefix(std::string_view& text, Unit unit) {
  for (const Spelling& prefix : prefix_spellings) {
    if (!text.starts_with(prefix.text)) continue;
    // A capacitor of thousands of farads is an old sheet's way to write a small one.
    if (unit == Unit::farad && prefix.exponent > 0) return std::nullopt;
    text.remove_prefix(prefix.text.size());
    return prefix.exponent;
  }
  if (unit == Unit::ohm && text.starts_with('K')) {
    text.remove_prefix(1);
    return 3;
  }
  return std::nullopt;
}

// What stands behind the digits: an optional prefix, an optional unit.
std::optional<long> suffix_exponent(std::string_view text, Unit unit) {
  if (const auto exponent = unit_exponent(text, unit)) return exponent;
  if (!may_carry_prefix(unit)) return std::nullopt;
  const auto prefix = take_prefix(text, unit);
  if (!prefix) return std::nullopt;
  const auto exponent = unit_exponent(text, unit);
  if (!exponent) return std::nullopt;
  return *prefix + *exponent;
}

// The letter that stands for the decimal point: a prefix, or the unit itself (4k7, 0R33, 0A5).
std::optional<long> take_point_letter(std::string_view& text, Unit unit) {
  if (!may_carry_prefix(unit)) return std::nullopt;
  for (const Spelling& spelling : unit_spellings(unit)) {
    if (spelling.text.size() == 1 && unit != Unit::kelvin && unit != Unit::second &&
        text.starts_with(spelling.text)) {
      text.remove_prefix(1);
      return spelling.exponent;
    }
  }
  return take_prefix(text, unit);
}

bool take_sign(std::string_view& text) {
  if (text.empty() || (text.front() != '+' && text.front() != '-')) return false;
  return take(text, 1) == "-";
}

// "e-20" behind the digits; false where it is an "e" without digits, which is left standing.
void take_exponent(std::string_view& text, Decimal& number) {
  if (text.empty() || (text.front() != 'e' && text.front() != 'E')) return;
  std::string_view rest = text.substr(1);
  const bool negative = take_sign(rest);
  const std::size_t count = count_digits(rest);
  if (count == 0) return;
  long exponent = 0;
  for (const char c : take(rest, count)) {
    if (exponent < 100000) exponent = exponent * 10 + (c - '0');
  }
  number.exponent += negative ? -exponent : exponent;
  text = rest;
}

// 4k7, R33, 2u2F: digits, a letter for the point, digits.
std::optional<Decimal> read_letter_form(std::string_view text, Unit unit) {
  Decimal number;
  number.negative = take_sign(text);
  number.digits = take(text, count_digits(text));
  const std::string_view at_letter = text;
  const auto exponent = take_point_letter(text, unit);
  if (!exponent || count_digits(text) == 0) return std::nullopt;
  const std::string_view letter = at_letter.substr(0, at_letter.size() - text.size());
  const std::string_view fraction = take(text, count_digits(text));
  number.digits += fraction;
  number.exponent = *exponent - static_cast<long>(fraction.size());
  const bool letter_is_unit = unit_exponent(letter, unit).has_value();
  if (!text.empty() && (letter_is_unit || !unit_exponent(text, unit))) return std::nullopt;
  return number;
}

// 4.7k, 0.33ohm, 6e-20A; `rest` is what stands behind the digits.
std::optional<Decimal> read_digits(std::string_view text, std::string_view& rest) {
  Decimal number;
  number.negative = take_sign(text);
  number.digits = take(text, count_digits(text));
  if (number.digits.empty()) return std::nullopt;
  if (text.starts_with('.')) {
    take(text, 1);
    const std::string_view fraction = take(text, count_digits(text));
    if (fraction.empty()) return std::nullopt;
    number.digits += fraction;
    number.exponent = -static_cast<long>(fraction.size());
  }
  take_exponent(text, number);
  rest = text;
  return number;
}

std::optional<double> read_temperature(std::string_view text) {
  std::string_view rest;
  const auto number = read_digits(text, rest);
  if (!number) return std::nullopt;
  const auto value = to_double(*number);
  if (!value) return std::nullopt;
  if (rest == "K") return value;
  if (rest.empty() || rest == "C") return kelvin_from_celsius(*value);
  return std::nullopt;
}

// The letters of IEC 60062, 5.1.
std::optional<double> tolerance_letter(std::string_view text) {
  static constexpr std::pair<std::string_view, double> letters[] = {{"B", 0.001},
                                                                    {"C", 0.0025},
                                                                    {"D", 0.005},
                                                                    {"F", 0.01},
                                                                    {"G", 0.02},
                                                                    {"J", 0.05},
                                                                    {"K", 0.1},
                                                                    {"M", 0.2}};
  for (const auto& [letter, tolerance] : letters) {
    if (text == letter) return tolerance;
  }
  return std::nullopt;
}

}  // namespace

std::optional<double> value_of(std::string_view text, Unit expected) {
  if (expected == Unit::temperature) return read_temperature(text);
  if (expected == Unit::tolerance) {
    if (const auto tolerance = tolerance_letter(text)) return tolerance;
  }
  if (const auto number = read_letter_form(text, expected)) return to_double(*number);
  std::string_view rest;
  auto number = read_digits(text, rest);
  if (!number) return std::nullopt;
  const auto exponent = suffix_exponent(rest, expected);
  if (!exponent) return std::nullopt;
  number->exponent += *exponent;
  return to_double(*number);
}

std::variant<double, ValueProblem> read_value(std::string_view text, Unit expected) {
  if (const auto value = value_of(text, expected)) return *value;
  return explain_slip(text, expected);
}

}  // namespace idlepoint::values
