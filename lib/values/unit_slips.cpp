#include "values/unit_slips.hpp"

#include <utility>

namespace idlepoint::values {

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

}  // namespace idlepoint::values
