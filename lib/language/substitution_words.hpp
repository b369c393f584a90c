// Another type in a part's place: the part and the type as words.
//
// Used by replacement_text.cpp and by the `replaced` statement of a job.
#pragma once

#include <optional>
#include <string>

#include "circuit/edits.hpp"
#include "language/draft.hpp"

namespace idlepoint::language {

/// The type that `word` names among those at hand; complains where there is none.
[[nodiscard]] std::optional<circuit::TypeId> known_type(Draft& draft, const Word& word);

/// Complains that a type is of another kind than is `wanted`: "`Q5` is an npn".
void complain_of_kind(Draft& draft,
                      const Word& word,
                      const circuit::PartType& type,
                      const std::string& wanted,
                      const std::string& instead);

/// The type of that name for the part of that name; complains where either is unknown or the two
/// are of different kinds.
[[nodiscard]] std::optional<circuit::SetType> read_other_type(Draft& draft,
                                                              const Word& part,
                                                              const Word& type);

}  // namespace idlepoint::language
