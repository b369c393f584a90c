// A fault explained, cold alone, for the tests of the chain of cause.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "answers/fault.hpp"
#include "answers/setup.hpp"
#include "circuit/edits.hpp"

namespace idlepoint::tests {

/// The stage without anything that heats: no warm state is looked for, which the chain does not
/// need.
[[nodiscard]] circuit::CheckedCircuit without_heat(const circuit::CheckedCircuit& stage);

/// A file of netlists/ so, by its name without the ending.
[[nodiscard]] circuit::CheckedCircuit cold_demo(const std::string& name);

/// None where the faulty stage has no state.
[[nodiscard]] std::optional<answers::Fault> explained(const circuit::CheckedCircuit& stage,
                                                      const std::vector<circuit::Edit>& faults);

/// The fault as written on a command line; fails the test where there is no answer.
[[nodiscard]] answers::Fault explained(const circuit::CheckedCircuit& stage,
                                       const std::string& fault);

}  // namespace idlepoint::tests
