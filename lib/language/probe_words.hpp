// What is to be read: `volts A B`, `amps R11`, `watts Q5`, `celsius HS1`, as words of a statement.
//
// Used by `reading` statements and by --reading of the command line.
#pragma once

#include <optional>
#include <span>

#include "circuit/circuit.hpp"
#include "language/draft.hpp"
#include "values/unit.hpp"

namespace idlepoint::language {

/// The probe that `words` say; complains where they say none.
[[nodiscard]] std::optional<circuit::Probe> read_probe_words(Draft& draft,
                                                             std::span<const Word> words);

/// The unit in which a reading is given: volts, amperes, watts, a temperature.
[[nodiscard]] values::Unit unit_of(const circuit::Probe& probe);

/// The same for a difference of two such readings: K for a temperature.
[[nodiscard]] values::Unit difference_unit_of(const circuit::Probe& probe);

}  // namespace idlepoint::language
