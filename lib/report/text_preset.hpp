// The preset answer as a page of text.
#pragma once

#include <string>

#include "answers/preset.hpp"
#include "report/page.hpp"

namespace idlepoint::report {

/// What to do first, then why: a block a trimmer in the order to set them, the readings at the
/// preset, the cautions. Ends with a line end. A refusal is its reason and the caution.
[[nodiscard]] std::string text_of(const answers::Preset& answer, const Page& page);

}  // namespace idlepoint::report
