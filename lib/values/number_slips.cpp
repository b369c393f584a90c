#include "values/number_slips.hpp"

#include <algorithm>

#include "values/format.hpp"

namespace idlepoint::values {
namespace {

// 10,000: three digits behind the comma.
bool parts_thousands(std::string_view text, std::size_t comma) {
  const std::string_view behind = text.substr(comma + 1);
  return std::count_if(behind.begin(), behind.end(), is_digit) == 3;
}

std::string key_for_second(Unit expected, std::string_view second) {
  if (expected == Unit::farad && second.ends_with('V')) return "voltage=";
  if (expected == Unit::ohm && second.ends_with('W')) return "power=";
  return "";
}

}  // namespace

Slip missing(std::string_view text, Unit unit) {
  if (!text.empty()) return std::nullopt;
  return ValueProblem{"value-unreadable",
                      "a value is missing here",
                      "",
                      "Write " + std::string(in_words(unit)) + ", such as " + example(unit) + "."};
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

}  // namespace idlepoint::values
