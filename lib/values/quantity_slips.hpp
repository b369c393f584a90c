// Why a text is no value: the slips of the pen that drawings invite, each with what to write.
//
// Called by read_value when a text does not read; knows nothing of files. The slips were collected
// from printed schematics; docs/complaints.md has one entry for each.
#pragma once

#include <optional>
#include <string_view>

#include "values/quantity.hpp"
#include "values/unit.hpp"

namespace idlepoint::values {

/// The SI value, or nothing; no explanation. What read_value accepts, this accepts.
[[nodiscard]] std::optional<double> value_of(std::string_view text, Unit expected);

/// The slip that best explains why `value_of(text, expected)` is empty.
[[nodiscard]] ValueProblem explain_slip(std::string_view text, Unit expected);

}  // namespace idlepoint::values
