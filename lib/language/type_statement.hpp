// One `type` statement as a part type.
//
// Used by the statement of a stage or types file, and by the reader of a points file, in which the
// fields that the points are to give are missing.
#pragma once

#include <optional>

#include "circuit/part_type.hpp"
#include "language/draft.hpp"
#include "language/lexer.hpp"

namespace idlepoint::language {

enum class TypeUse {
  whole,     ///< Every field that the law needs must be there.
  with_gaps  ///< Law fields may be missing; quick fields are refused.
};

/// The type, with every complaint about it in the draft; none where not even its kind and name are
/// known.
[[nodiscard]] std::optional<circuit::PartType> understand_type(Draft& draft,
                                                               const Statement& statement,
                                                               TypeUse use);

}  // namespace idlepoint::language
