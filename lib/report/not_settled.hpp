// The story of a stage that found no DC state, as a person would tell it.
#pragma once

#include <string>

#include "circuit/circuit.hpp"
#include "report/page.hpp"
#include "solve/not_settled.hpp"

namespace idlepoint::report {

/// Which point would not settle, held by which part, what was tried and where it stopped, what is
/// likely. For standard error; ends with a line end. No number in it is an answer.
[[nodiscard]] std::string text_of(const circuit::Circuit& circuit,
                                  const solve::NotSettled& story,
                                  const Page& page);

}  // namespace idlepoint::report
