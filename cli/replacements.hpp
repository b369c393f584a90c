// The substitutes that a command line names: `Q606=TYPE`, `D601=3 TYPE + 22R`.
//
// Used by cli/swap and cli/sheet.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "answers/swap.hpp"
#include "circuit/circuit.hpp"

namespace idlepoint::cli {

/// The types that such texts name, to be had at hand when the stage is opened.
[[nodiscard]] std::vector<std::string> types_named_in(const std::vector<std::string>& texts);

/// None where one of them cannot be read, or is for a part that is taken out: then all has been
/// said on standard error.
[[nodiscard]] std::optional<std::vector<answers::Replacement>> read_replacements(
    const std::vector<std::string>& texts, const circuit::Circuit& circuit);

}  // namespace idlepoint::cli
