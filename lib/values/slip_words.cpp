#include "values/slip_words.hpp"

namespace idlepoint::values {

char other_case(char c) {
  if (c >= 'a' && c <= 'z') return static_cast<char>(c - 'a' + 'A');
  if (c >= 'A' && c <= 'Z') return static_cast<char>(c - 'A' + 'a');
  return c;
}

std::string lower(std::string_view text) {
  std::string lowered(text);
  for (char& c : lowered) {
    if (c >= 'A' && c <= 'Z') c = other_case(c);
  }
  return lowered;
}

std::string quoted(std::string_view text) {
  if (text.size() > longest_explained) {
    std::size_t end = longest_explained / 2;
    while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xc0U) == 0x80U) --end;
    return "`" + std::string(text.substr(0, end)) + "...`";
  }
  return "`" + std::string(text) + "`";
}

std::string example(Unit unit) {
  switch (unit) {
    case Unit::none:
      return "250";
    case Unit::ohm:
      return "4k7, 0R33 or 820R";
    case Unit::volt:
      return "28V, 4V7 or -1.2V";
    case Unit::ampere:
      return "5mA or 0A5";
    case Unit::watt:
      return "3W or 0W5";
    case Unit::farad:
      return "2u2, 100n or 470p";
    case Unit::henry:
      return "10u or 2m2";
    case Unit::temperature:
      return "25C";
    case Unit::kelvin:
      return "10K";
    case Unit::kelvin_per_watt:
      return "1.2K/W";
    case Unit::joule_per_kelvin:
      return "300J/K";
    case Unit::percent:
      return "50%";
    case Unit::tolerance:
      return "5% or J";
    case Unit::second:
      return "600s";
    case Unit::ppm_per_kelvin:
      return "100ppm/K";
    case Unit::volt_per_kelvin:
      return "-5mV/K";
    case Unit::ampere_per_volt2:
      return "2.5A/V2";
    case Unit::per_volt:
      return "0.01/V";
    case Unit::electronvolt:
      return "1.206eV";
    case Unit::hertz:
      return "4MHz";
  }
  return {};
}

bool is_bare_number(std::string_view text) {
  return reads(text, Unit::none) && (is_digit(text.back()) || text.back() == '.');
}

}  // namespace idlepoint::values
