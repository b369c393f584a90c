// Pieces of a stage text: names of points, quoted texts, readings and what is said of them.
#pragma once

#include <string>
#include <string_view>

#include "circuit/circuit.hpp"

namespace idlepoint::language {

/// A point as a statement names it; a wire without a name by its first lead, `Q603.c`.
[[nodiscard]] std::string write_node(const circuit::Circuit& circuit, circuit::NodeId node);

/// The text in double quotes, with \" and \\ where they are needed.
[[nodiscard]] std::string in_quotes(std::string_view text);

// Whole lines, with their end.
[[nodiscard]] std::string write_reading(const circuit::Circuit& circuit,
                                        const circuit::Reading& reading);
[[nodiscard]] std::string write_adjustment(const circuit::Circuit& circuit,
                                           const circuit::Adjustment& adjustment);
[[nodiscard]] std::string write_printed(const circuit::Circuit& circuit,
                                        const circuit::PrintedVolts& printed);

}  // namespace idlepoint::language
