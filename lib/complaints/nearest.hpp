// The nearest known name to a mistyped one.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace idlepoint::complaints {

/// The name among `known` at the smallest edit distance from `written`, if that is at most 2 (a
/// pair of neighbouring letters exchanged counts 1), a difference of case alone first. Names of one
/// or two letters are only offered at distance 1. Of several equally near the first in the list.
/// Cost: the product of the lengths, a name.
[[nodiscard]] std::optional<std::string> nearest_name(std::string_view written,
                                                      std::span<const std::string> known);

}  // namespace idlepoint::complaints
