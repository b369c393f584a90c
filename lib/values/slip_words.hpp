// What the explanations of slips share: a text in quotes, an example of each unit.
//
// Used by the slips of quantity_slips.cpp alone.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

#include "values/decimal.hpp"
#include "values/quantity.hpp"
#include "values/quantity_slips.hpp"

namespace idlepoint::values {

/// The slip that a text makes; empty where it makes another, or none.
using Slip = std::optional<ValueProblem>;

/// Bytes; in a longer text no slip is looked for.
inline constexpr std::size_t longest_explained = 48;

/// The text in backquotes, shortened where it is very long.
[[nodiscard]] std::string quoted(std::string_view text);

/// "4k7, 0R33 or 820R": what a value of that unit looks like.
[[nodiscard]] std::string example(Unit unit);

[[nodiscard]] inline bool reads(std::string_view text, Unit unit) {
  return value_of(text, unit).has_value();
}

/// A number without prefix or unit.
[[nodiscard]] bool is_bare_number(std::string_view text);

/// ASCII alone: the trade's units are no others.
[[nodiscard]] char other_case(char c);
[[nodiscard]] std::string lower(std::string_view text);

}  // namespace idlepoint::values
