#include "values/decimal.hpp"

#include <array>
#include <charconv>
#include <cmath>
#include <cstddef>
#include <system_error>

namespace idlepoint::values {
namespace {

std::string_view without_leading_zeros(std::string_view digits) {
  const std::size_t first = digits.find_first_not_of('0');
  return first == std::string_view::npos ? std::string_view{} : digits.substr(first);
}

// The text of std::to_chars in scientific form, "-2.24e-02", as digits and exponent.
Decimal from_scientific(std::string_view text) {
  Decimal decimal;
  if (text.front() == '-') {
    decimal.negative = true;
    text.remove_prefix(1);
  }
  const std::size_t e = text.find('e');
  std::string_view exponent = text.substr(e + 1);
  if (exponent.front() == '+') exponent.remove_prefix(1);
  std::from_chars(exponent.data(), exponent.data() + exponent.size(), decimal.exponent);
  for (const char c : text.substr(0, e)) {
    if (c != '.') decimal.digits += c;
  }
  decimal.exponent -= static_cast<long>(decimal.digits.size()) - 1;
  return decimal;
}

}  // namespace

std::optional<double> to_double(const Decimal& decimal) {
  const std::string_view digits = without_leading_zeros(decimal.digits);
  if (digits.empty()) return decimal.negative ? -0.0 : 0.0;
  std::string text;
  text.reserve(digits.size() + 24);
  if (decimal.negative) text += '-';
  text += digits;
  text += 'e';
  text += std::to_string(decimal.exponent);
  double value = 0.0;
  const auto [end, trouble] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (trouble != std::errc{} || end != text.data() + text.size()) return std::nullopt;
  if (!std::isfinite(value) || value == 0.0) return std::nullopt;
  return value;
}

Decimal shortest_decimal(double value) {
  std::array<char, 64> buffer{};
  const auto written = std::to_chars(
      buffer.data(), buffer.data() + buffer.size(), value, std::chars_format::scientific);
  return from_scientific({buffer.data(), written.ptr});
}

Decimal rounded_decimal(double value, int digits) {
  if (value == 0.0) return {.negative = false, .digits = "0", .exponent = 0};
  std::array<char, 64> buffer{};
  const int behind_point = digits < 1 ? 0 : digits > 17 ? 16 : digits - 1;
  const auto written = std::to_chars(buffer.data(),
                                     buffer.data() + buffer.size(),
                                     value,
                                     std::chars_format::scientific,
                                     behind_point);
  return from_scientific({buffer.data(), written.ptr});
}

std::string write_plain(const Decimal& decimal) {
  std::string text = decimal.negative ? "-" : "";
  const long size = static_cast<long>(decimal.digits.size());
  const long before_point = size + decimal.exponent;
  if (decimal.exponent >= 0) {
    text += decimal.digits;
    text.append(static_cast<std::size_t>(decimal.exponent), '0');
  } else if (before_point <= 0) {
    text += "0.";
    text.append(static_cast<std::size_t>(-before_point), '0');
    text += decimal.digits;
  } else {
    text += decimal.digits.substr(0, static_cast<std::size_t>(before_point));
    text += '.';
    text += decimal.digits.substr(static_cast<std::size_t>(before_point));
  }
  return text;
}

std::string write_decimal(const Decimal& decimal) {
  const long before_point = static_cast<long>(decimal.digits.size()) + decimal.exponent;
  if (decimal.digits == "0") return decimal.negative ? "-0" : "0";
  if (before_point > -4 && before_point <= 15 && decimal.exponent <= 6) return write_plain(decimal);
  Decimal mantissa = decimal;
  while (mantissa.digits.size() > 1 && mantissa.digits.back() == '0') mantissa.digits.pop_back();
  mantissa.exponent = 1 - static_cast<long>(mantissa.digits.size());
  return write_plain(mantissa) + "e" + std::to_string(before_point - 1);
}

}  // namespace idlepoint::values
