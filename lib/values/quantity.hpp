// Reads a value as a schematic prints it: 4k7, 0R33, 2u2, 4V7, 47 uF without the space.
//
// Used by the reader for every value field, and by the command line for its options.
// Source: IEC 60062 (RKM code and tolerance letters), [IEC60062] in docs/sources.md.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <variant>

#include "values/unit.hpp"

namespace idlepoint::values {

/// Why a text is no value, and what to write instead.
struct ValueProblem {
  std::string kind;      ///< Stable short name, such as "decimal-comma": see complaints/kinds.hpp.
  std::string headline;  ///< In the user's words, one sentence without a full stop.
  std::string why;       ///< One sentence; may be empty.
  std::string instead;   ///< What to write; may be empty.
};

/// The SI value of `text` where a field expects `expected`, or why there is none.
///
/// A bare number takes the expected unit, except for `percent` and `tolerance`, whose sign must be
/// written. Never reads the machine's locale. The result is finite. Ranges are the caller's.
[[nodiscard]] std::variant<double, ValueProblem> read_value(std::string_view text, Unit expected);

}  // namespace idlepoint::values
