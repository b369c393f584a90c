#include "values/quantity_slips.hpp"

#include <algorithm>
#include <array>
#include <cstddef>
#include <utility>

#include "values/format.hpp"

namespace idlepoint::values {
namespace {

using Slip = std::optional<ValueProblem>;

constexpr std::size_t longest_explained = 48;  // Characters; beyond it no slip is looked for.

bool is_digit(char c) { return c >= '0' && c <= '9'; }

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

bool reads(std::string_view text, Unit unit) { return value_of(text, unit).has_value(); }

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

Slip missing(std::string_view text, Unit unit) {
  if (!text.empty()) return std::nullopt;
  return ValueProblem{"value-unreadable",
                      "a value is missing here",
                      "",
                      "Write " + std::string(in_words(unit)) + ", such as " + example(unit) + "."};
}

// 10,000: three digits behind the comma.
bool parts_thousands(std::string_view text, std::size_t comma) {
  const std::string_view behind = text.substr(comma + 1);
  return std::count_if(behind.begin(), behind.end(), is_digit) == 3;
}

Slip decimal_comma(std::string_view text, Unit unit) {
  const std::size_t comma = text.find(',');
  if (comma == std::string_view::npos) return std::nullopt;
  std::string pointed(text);
  std::replace(pointed.begin(), pointed.end(), ',', '.');
  std::string instead = "Write the decimal point as `.`.";
  if (reads(pointed, unit)) {
    instead = "Write `" + pointed + "`";
    if (unit == Unit::ohm) instead += " or `" + format_ohms(*value_of(pointed, unit), 12) + "`";
    instead += parts_thousands(text, comma) ? "; without the comma if it parts thousands." : ".";
  }
  return ValueProblem{"decimal-comma",
                      quoted(text) + " has a comma for a decimal point",
                      "A comma reads as a thousand in one country and as a point in the next.",
                      instead};
}

Slip wrong_minus(std::string_view text, Unit) {
  for (const std::string_view minus : {"\u2212", "\u2013", "\u2010", "\u2011"}) {
    if (!text.starts_with(minus)) continue;
    const std::string plain = "-" + std::string(text.substr(minus.size()));
    return ValueProblem{"minus-sign",
                        quoted(text) + " begins with a dash that is no minus",
                        "",
                        "Write " + quoted(plain) + " with the minus of the keyboard."};
  }
  return std::nullopt;
}

Slip bare_point(std::string_view text, Unit unit) {
  const std::size_t point = text.find('.');
  if (point == std::string_view::npos) return std::nullopt;
  const bool before = point > 0 && is_digit(text[point - 1]);
  const bool behind = point + 1 < text.size() && is_digit(text[point + 1]);
  if (before == behind) return std::nullopt;
  std::string full(text);
  full.insert(behind ? point : point + 1, "0");
  if (!reads(full, unit)) return std::nullopt;
  std::string instead = "Write `" + full + "`";
  if (unit == Unit::ohm) instead += " or `" + format_ohms(*value_of(full, unit), 12) + "`";
  return ValueProblem{"bare-point",
                      behind ? quoted(text) + " begins with its point"
                             : quoted(text) + " has nothing behind its point",
                      "A point on its own is easily lost on paper.",
                      instead + "."};
}

Slip three_letter_mega(std::string_view text, Unit unit) {
  const std::size_t at = lower(text).find("meg");
  if (at == std::string::npos || at == 0) return std::nullopt;
  const std::string plain = std::string(text.substr(0, at)) + "M";
  if (!reads(plain, unit)) return std::nullopt;
  return ValueProblem{"three-letter-mega",
                      quoted(text) + " writes mega in three letters",
                      "Here `M` is mega and `m` is milli, as IEC 60062 has it.",
                      "Write `" + plain + "`."};
}

Slip old_microfarad(std::string_view text, Unit unit) {
  if (unit != Unit::farad) return std::nullopt;
  for (const std::string_view ending : {"mfd", "mf", "ufd", "m"}) {
    if (!lower(text).ends_with(ending)) continue;
    const std::string plain = std::string(text.substr(0, text.size() - ending.size())) + "u";
    if (!reads(plain, unit)) continue;
    return ValueProblem{"old-microfarad",
                        quoted(text) + " is an old way to write microfarads",
                        "Older sheets print MF, MFD or M for a millionth of a farad.",
                        "Write `" + plain + "` if that is what the sheet means."};
  }
  return std::nullopt;
}

// 0.5 where a percentage belongs: a half, or half a percent?
Slip percent_sign(std::string_view text, Unit unit) {
  if (unit != Unit::percent && unit != Unit::tolerance) return std::nullopt;
  const auto number = value_of(text, Unit::none);
  if (!number) return std::nullopt;
  std::string instead = "Write `" + std::string(text) + "%`";
  if (*number > 0.0 && *number <= 1.0) {
    instead += " or `" + write_value(*number, Unit::percent) + "`, whichever is meant";
  }
  return ValueProblem{"percent-sign",
                      quoted(text) + " has no `%`",
                      "A bare 0.5 could be a half or half a percent.",
                      instead + "."};
}

bool is_bare_number(std::string_view text) {
  return reads(text, Unit::none) && (is_digit(text.back()) || text.back() == '.');
}

std::string key_for_second(Unit expected, std::string_view second) {
  if (expected == Unit::farad && second.ends_with('V')) return "voltage=";
  if (expected == Unit::ohm && second.ends_with('W')) return "power=";
  return "";
}

// 47/50, 0.33(5W), 47u50V: two of the sheet's values in one word.
Slip two_values(std::string_view text, Unit unit) {
  for (std::size_t at = 1; at + 1 < text.size(); ++at) {
    const bool has_mark = text[at] == '/' || text[at] == '(';
    std::string second(text.substr(has_mark ? at + 1 : at));
    if (!second.empty() && second.back() == ')') second.pop_back();
    if (second.empty() || !is_digit(second.front())) continue;
    if (is_digit(text[at]) && is_digit(text[at - 1])) continue;
    if (text[at] == '/' && unit == Unit::farad && is_bare_number(second)) second += "V";
    std::string first(text.substr(0, at));
    if (unit == Unit::farad && is_bare_number(first)) first += "u";
    const bool volts_or_watts = (second.ends_with('V') && reads(second, Unit::volt)) ||
                                (second.ends_with('W') && reads(second, Unit::watt));
    if (!reads(first, unit) || (!volts_or_watts && !has_mark)) continue;
    const std::string key = key_for_second(unit, second);
    return ValueProblem{"two-values",
                        quoted(text) + " holds two values in one word",
                        "",
                        key.empty() ? "Write one value: `" + first + "`."
                                    : "Write `" + first + " " + key + second + "`."};
  }
  return std::nullopt;
}

// 4k7J: the letter is a tolerance of IEC 60062.
Slip tolerance_behind(std::string_view text, Unit unit) {
  if (unit != Unit::ohm && unit != Unit::farad && unit != Unit::henry) return std::nullopt;
  if (text.size() < 2) return std::nullopt;
  const std::string_view letter = text.substr(text.size() - 1);
  const std::string_view value = text.substr(0, text.size() - 1);
  if (!reads(letter, Unit::tolerance) || !reads(value, unit)) return std::nullopt;
  const bool could_be_unit = letter == "F" || letter == "C" || letter == "K";
  if (is_bare_number(value) && (could_be_unit || unit != Unit::ohm)) return std::nullopt;
  const std::string percent = write_value(*value_of(letter, Unit::tolerance), Unit::tolerance);
  std::string instead = "Write `" + std::string(value) + " tolerance=" + percent + "`";
  if (unit != Unit::ohm)
    instead = "Write `" + std::string(value) + "`; the tolerance plays no part here";
  return ValueProblem{"tolerance-behind-value",
                      quoted(text) + " ends with the letter of a tolerance",
                      "`" + std::string(letter) + "` behind a value is " + percent +
                          " in IEC 60062, and is easily taken for a part of the value.",
                      instead + "."};
}

Slip capital_kilo(std::string_view text, Unit unit) {
  const std::size_t at = text.find('K');
  if (at == std::string_view::npos || unit == Unit::ohm) return std::nullopt;
  if (unit == Unit::temperature || symbol(unit).find('K') != std::string_view::npos) {
    return std::nullopt;
  }
  std::string small(text);
  small[at] = 'k';
  if (!reads(small, unit)) return std::nullopt;
  return ValueProblem{"capital-kilo",
                      quoted(text) + " has a capital K",
                      "`K` is kelvin; only where ohms belong is it read as kilo.",
                      "Write `" + small + "`."};
}

// 470P, 10v, 0r33: one letter in the wrong case.
Slip letter_case(std::string_view text, Unit unit) {
  for (std::size_t at = 0; at < text.size(); ++at) {
    if (other_case(text[at]) == text[at]) continue;
    std::string other(text);
    other[at] = other_case(text[at]);
    if (!reads(other, unit)) continue;
    return ValueProblem{
        "letter-case",
        quoted(text) + " has a letter in the wrong case",
        "In values capitals and small letters differ: M is a million, m a thousandth.",
        "Write `" + other + "`."};
  }
  return std::nullopt;
}

// Units in other spellings: ohms, volts, degC, C/W.
Slip unit_spelling(std::string_view text, Unit unit) {
  static constexpr std::pair<std::string_view, Unit> spellings[] = {
      {"ohms", Unit::ohm},
      {"ohm", Unit::ohm},
      {"volts", Unit::volt},
      {"volt", Unit::volt},
      {"amps", Unit::ampere},
      {"amp", Unit::ampere},
      {"watts", Unit::watt},
      {"watt", Unit::watt},
      {"degc", Unit::temperature},
      {"\u00b0c", Unit::temperature},
      {"\u00b0C", Unit::temperature},
      {"c", Unit::temperature},
      {"c/w", Unit::kelvin_per_watt},
      {"\u00b0c/w", Unit::kelvin_per_watt},
      {"c", Unit::kelvin},
      {"\u00b0c", Unit::kelvin},
      {"degc", Unit::kelvin},
      {"j/c", Unit::joule_per_kelvin},
      {"j/\u00b0c", Unit::joule_per_kelvin},
      {"v/c", Unit::volt_per_kelvin},
      {"mv/c", Unit::volt_per_kelvin},
      {"ppm", Unit::ppm_per_kelvin},
      {"ppm/c", Unit::ppm_per_kelvin},
      {"ppm/\u00b0c", Unit::ppm_per_kelvin},
      {"sec", Unit::second},
      {"seconds", Unit::second}};
  for (const auto& [spelling, spelt] : spellings) {
    if (spelt != unit || !lower(text).ends_with(lower(spelling))) continue;
    const std::string number(text.substr(0, text.size() - spelling.size()));
    const std::string_view proper = spelling == "mv/c" ? "mV/K" : symbol(unit);
    if (!reads(number + std::string(proper), unit)) continue;
    return ValueProblem{"unit-spelling",
                        quoted(text) + " writes its unit in another way",
                        "",
                        "Write `" + number + std::string(proper) + "`."};
  }
  return std::nullopt;
}

Slip wrong_unit(std::string_view text, Unit unit) {
  for (std::size_t index = 1; index <= static_cast<std::size_t>(Unit::hertz); ++index) {
    const Unit other = static_cast<Unit>(index);
    if (other == unit || (unit == Unit::percent && other == Unit::tolerance)) continue;
    // 2K is kelvin before it is kilohms.
    if (other == Unit::ohm && reads(text, Unit::kelvin)) continue;
    if (!reads(text, other) || reads(text, Unit::none)) continue;
    return ValueProblem{"wrong-unit",
                        quoted(text) + " is " + std::string(in_words(other)) + ", but here " +
                            std::string(in_words(unit)) + " belong" +
                            (in_words(unit).starts_with("a") && unit != Unit::ampere &&
                                     unit != Unit::ampere_per_volt2
                                 ? "s"
                                 : ""),
                        "",
                        "Write a value such as " + example(unit) + "."};
  }
  return std::nullopt;
}

Slip out_of_size(std::string_view text, Unit) {
  // Digits that could be read but for their size: 1e999.
  const bool begins =
      !text.empty() && (is_digit(text.front()) || text.front() == '-' || text.front() == '+');
  if (!begins || text.find_first_of("eE") == std::string_view::npos) {
    const auto digits = std::count_if(text.begin(), text.end(), is_digit);
    if (digits < 300) return std::nullopt;
  }
  const std::size_t e = text.find_first_of("eE");
  if (e != std::string_view::npos) {
    const auto behind = text.substr(e + 1);
    if (std::count_if(behind.begin(), behind.end(), is_digit) < 3) return std::nullopt;
  }
  return ValueProblem{"value-size",
                      quoted(text) + " is beyond every number that can be reckoned with",
                      "",
                      "Write a value of a size that a part can have."};
}

}  // namespace

ValueProblem explain_slip(std::string_view text, Unit expected) {
  if (const auto slip = out_of_size(text, expected)) return *slip;
  if (text.size() <= longest_explained) {
    static constexpr std::array slips = {missing,
                                         decimal_comma,
                                         wrong_minus,
                                         bare_point,
                                         three_letter_mega,
                                         old_microfarad,
                                         percent_sign,
                                         two_values,
                                         tolerance_behind,
                                         capital_kilo,
                                         unit_spelling,
                                         wrong_unit,
                                         letter_case};
    for (const auto slip_of : slips) {
      if (const auto slip = slip_of(text, expected)) return *slip;
    }
  }
  return ValueProblem{
      "value-unreadable",
      quoted(text) + " is no value that can be read",
      "",
      "Write " + std::string(in_words(expected)) + ", such as " + example(expected) + "."};
}

}  // namespace idlepoint::values
