// What a person read on the meter, as words: where the leads were, and what was shown.
//
// Used by bench_reading_text.cpp (command line) and statements_measured.cpp (job files). Source:
// docs/language.md, "Readings as taken".
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "circuit/bench_reading.hpp"
#include "language/draft.hpp"
#include "values/unit.hpp"

namespace idlepoint::language {

/// A measurement and what it is called: the reading's name, or the measurement as it is written.
struct NamedMeasurement {
  std::string name;
  circuit::Measurement measurement;
};

/// How many words say the measurement that begins with `first`: 3 of `volts A B`, `ohms A B` and
/// `diode A B`, 2 of `amps PART`, `watts PART` and `celsius PART`, 1 of a reading's name.
[[nodiscard]] std::size_t measurement_size(const std::string& first);

/// The measurement of exactly `measurement_size` words; complains where they say none.
[[nodiscard]] std::optional<NamedMeasurement> read_measurement_words(Draft& draft,
                                                                     std::span<const Word> words);

/// What the meter showed: `9.1mV`, `about 0.6V`, `open`, `jumps`, `drifts up`, `0.3V drifts down`.
struct Shown {
  std::optional<double> value;
  circuit::Firmness firmness = circuit::Firmness::shown;
};

/// The same from words; there is at least one. Without a measurement (its names are not known) the
/// value is not looked at.
[[nodiscard]] std::optional<Shown> read_shown_words(Draft& draft,
                                                    std::span<const Word> words,
                                                    const circuit::Measurement* measurement);

/// The words of `word`, which may hold blanks where it was quoted.
[[nodiscard]] std::vector<Word> words_within(const Word& word);

/// The unit of what a measurement shows: ohms, volts, amperes, watts, a temperature.
[[nodiscard]] values::Unit unit_of(const circuit::Measurement& measurement);

}  // namespace idlepoint::language
