// READING=VALUE, as a person types what the meter showed.
//
// Used by `diagnose`: behind the file, for --sound, and for the answers to --ask. Source:
// docs/language.md, "Readings as taken".
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "circuit/bench_reading.hpp"
#include "complaints/result.hpp"

namespace idlepoint::language {

/// `upper=0.0mV`, `volts A B=-8V`, `ohms hi lo=open`, `upper=drifts up`. The complaint's place is
/// ("command line", column in `text`).
[[nodiscard]] complaints::Result<circuit::BenchReading> read_bench_reading(
    std::string_view text, const circuit::Circuit& circuit);

/// All of `texts`, or every complaint about them; one measurement given twice is one.
[[nodiscard]] complaints::Result<std::vector<circuit::BenchReading>> read_bench_readings(
    const std::vector<std::string>& texts, const circuit::Circuit& circuit);

/// The answer to a measurement that was asked for: `-0.2V`, `about 0.6V`, `open`; or another
/// reading with its `=`.
[[nodiscard]] complaints::Result<circuit::BenchReading> read_bench_answer(
    std::string_view text, const circuit::Measurement& asked, const circuit::Circuit& circuit);

}  // namespace idlepoint::language
