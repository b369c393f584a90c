// The shelf as any stage reads it: through the reader, from netlists/shelf.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "circuit/part_type.hpp"

namespace idlepoint::shelf {

/// All types of the shelf, read once. Fails the test with the complaints where it cannot be read.
[[nodiscard]] const std::vector<circuit::PartType>& all_types();

/// Fails the test where the shelf has none of that name.
[[nodiscard]] const circuit::PartType& type_named(std::string_view name);

/// The types whose names match the regular expression; fails the test where none does.
[[nodiscard]] std::vector<circuit::PartType> types_matching(std::string_view names);

}  // namespace idlepoint::shelf
