// What runs hot, a sentence a part.
//
// Used by the readings report. No number is made here.
#pragma once

#include <string>

#include "answers/hot_list.hpp"
#include "circuit/circuit.hpp"
#include "report/page.hpp"

namespace idlepoint::report {

/// "What runs hot:", a line a part, those at risk first, then what "played loud" means; empty where
/// nothing is hot.
[[nodiscard]] std::string hot_section(const circuit::Circuit& circuit,
                                      const answers::HotList& hot,
                                      const Page& page);

}  // namespace idlepoint::report
