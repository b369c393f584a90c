// A fault's chain of cause and its dangers in plain sentences.
//
// Used by the text and the JSON report of a fault. No sentence knows a name or a topology: each
// says the numbers of its own step (answers/fault_chain.hpp).
#pragma once

#include <string>
#include <vector>

#include "answers/fault.hpp"

namespace idlepoint::report {

/// One step, a sentence or two, with its full stop.
[[nodiscard]] std::string step_in_words(const answers::Fault& answer,
                                        const answers::ChainStep& step);

/// One danger, a sentence with its full stop.
[[nodiscard]] std::string danger_in_words(const answers::Fault& answer,
                                          const answers::Danger& danger);

/// All of them; parts in the same danger by the same figures share a sentence.
[[nodiscard]] std::vector<std::string> dangers_in_words(const answers::Fault& answer);

/// What a meter and a nose would tell: rails that deliver alike or not, an output at a rail, the
/// readings that show it most and those that do not. A sentence each; none where nothing shows.
[[nodiscard]] std::vector<std::string> clues(const answers::Fault& answer);

}  // namespace idlepoint::report
