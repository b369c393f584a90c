// Statements of parts and part types, every value to its last bit.
#pragma once

#include <string>

#include "circuit/circuit.hpp"

namespace idlepoint::language {

/// The statement of a part, with its end of line.
[[nodiscard]] std::string write_part(const circuit::Circuit& circuit, const circuit::Part& part);

/// The statement of a part type, with its end of line.
[[nodiscard]] std::string write_type(const circuit::PartType& type);

/// The same for a person to keep: four figures, what equals the law's default left out, folded to
/// lines of 100 characters.
[[nodiscard]] std::string write_short_type(const circuit::PartType& type);

}  // namespace idlepoint::language
