// The units that a value in a stage file may carry, and which of them a field expects.
//
// Used by the reader (to refuse volts where ohms belong) and by the writer.
// Source: docs/language.md, section Values.
#pragma once

#include <string_view>

namespace idlepoint::values {

/// What a field expects. `read_value` returns SI numbers for all of them, with these remarks.
enum class Unit {
  none,              ///< A plain number: a gain, an ideality, a count.
  ohm,               ///< `K` is kilo only here.
  volt,
  ampere,
  watt,
  farad,
  henry,
  temperature,       ///< Written in C or K, bare means C; returned in kelvin.
  kelvin,            ///< A temperature difference.
  kelvin_per_watt,
  joule_per_kelvin,
  percent,           ///< The `%` sign must be written; returned as a fraction: 5% is 0.05.
  tolerance,         ///< As percent; also a single letter of IEC 60062: J is 0.05.
  second,
  ppm_per_kelvin,    ///< Returned per kelvin: 100ppm/K is 1e-4.
  volt_per_kelvin,
  ampere_per_volt2,
  per_volt,
  electronvolt,
  hertz,
};

/// The unit as written behind a number: "V", "K/W"; for ohms "R". Empty for `none`.
[[nodiscard]] std::string_view symbol(Unit unit) noexcept;

/// The unit in words for a complaint: "ohms", "volts", "a temperature".
[[nodiscard]] std::string_view in_words(Unit unit) noexcept;

}  // namespace idlepoint::values
