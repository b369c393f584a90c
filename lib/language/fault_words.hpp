// The words of a fault, `Q5 short c-e` or `bridge a b`, as an edit of the drawing.
#pragma once

#include <optional>
#include <span>

#include "circuit/edits.hpp"
#include "language/draft.hpp"

namespace idlepoint::language {

/// The edit that `words` say; complains where they say none, or one that does not fit the part.
/// `source` is the text they stand in.
[[nodiscard]] std::optional<circuit::Edit> read_fault_words(Draft& draft,
                                                            std::span<const Word> words,
                                                            const SourceText& source);

}  // namespace idlepoint::language
