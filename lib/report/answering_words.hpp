// What the standing current hears, as a table and a sentence.
//
// Used by the `swap` report. No number is made here.
#pragma once

#include <string>
#include <vector>

#include "answers/answering.hpp"
#include "circuit/circuit.hpp"
#include "report/page.hpp"

namespace idlepoint::report {

/// "What the standing current hears, VR602 untouched:", for each reading a table of the parts, and
/// whether gain matters here. Empty for none.
[[nodiscard]] std::string answering_section(const circuit::Circuit& circuit,
                                            const std::vector<answers::Answering>& answering,
                                            const Page& page);

}  // namespace idlepoint::report
