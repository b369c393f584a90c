// The readings of a stage as lines: name, points, figure, limit.
//
// Used by the readings and the preset report.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "answers/reading_values.hpp"
#include "circuit/circuit.hpp"
#include "report/page.hpp"
#include "solve/operating_point.hpp"

namespace idlepoint::report {

/// A line a reading, indented by two, columns as wide as their widest entry; a broken limit in
/// bold. Empty without readings. With the cold moment beside a warm state: both figures, under a
/// line that says which is which; limits are judged warm.
[[nodiscard]] std::string readings_table(const circuit::Circuit& circuit,
                                         const std::vector<answers::ReadingValue>& readings,
                                         const std::optional<answers::ColdMoment>& cold,
                                         const Page& page);

/// What the readings need said: one resistor or both, and where the meter itself pulls a reading
/// away by more than 1 % and half a millivolt. Each sentence a paragraph of its own.
[[nodiscard]] std::string readings_remarks(const circuit::Circuit& circuit,
                                           const solve::OperatingPoint& state,
                                           const std::vector<answers::ReadingValue>& readings,
                                           const Page& page);

}  // namespace idlepoint::report
