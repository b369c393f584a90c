// The words of a fault, `Q5 short c-e`, as an edit of the drawing.
//
// One function a verb. Source: docs/language.md, "Faults, as written on a command line".
#pragma once

#include <optional>
#include <span>

#include "circuit/edits.hpp"
#include "language/draft.hpp"
#include "values/unit.hpp"

namespace idlepoint::language {

/// The edit that `words` say; complains where they say none, or one that does not fit the part.
/// `source` is the text they stand in.
[[nodiscard]] std::optional<circuit::Edit> read_fault_words(Draft& draft,
                                                            std::span<const Word> words,
                                                            const SourceText& source);

/// The unit of a part's VALUE: ohms of a resistor, amperes of a fuse.
[[nodiscard]] values::Unit unit_of_value(circuit::PartKind kind);

}  // namespace idlepoint::language
