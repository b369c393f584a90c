// The drawing of a stage as JSON: parts and where they go, as a person reads them back against the
// paper, with the sentences that frame every report.
//
// Used by report/json_sheet. Keys: docs/commands.md, "sheet".
#pragma once

#include "answers/sheet.hpp"
#include "report/json_pieces.hpp"

namespace idlepoint::report {

/// The object `drawing`.
[[nodiscard]] Json json_drawing(const answers::SheetChannel& channel);

/// The object `words`: whole sentences, as the text reports say them.
[[nodiscard]] Json json_words(const answers::SheetChannel& channel);

}  // namespace idlepoint::report
