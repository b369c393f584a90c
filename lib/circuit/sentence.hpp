// Small pieces of English for sentences about parts.
#pragma once

#include <string>
#include <vector>

#include "circuit/part_kind.hpp"

namespace idlepoint::circuit {

/// "a resistor", "an npn", "an n-jfet".
[[nodiscard]] std::string a_kind(PartKind kind);

/// "a", "a and b", "a, b and c". Requires at least one.
[[nodiscard]] std::string list_words(const std::vector<std::string>& words);

}  // namespace idlepoint::circuit
