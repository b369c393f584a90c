// The first step of a chain of cause: what was done, with the numbers of the sound stage.
//
// Used by report/fault_words alone.
#pragma once

#include <string>

#include "answers/fault.hpp"

namespace idlepoint::report {

/// "D601 carried 5.6 mA; open, it passes nothing."
[[nodiscard]] std::string fault_done(const answers::Fault& answer, const answers::ChainStep& step);

}  // namespace idlepoint::report
