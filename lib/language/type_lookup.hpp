// The type that a part names: from the file, its types files, or the installed shelf.
#pragma once

#include <optional>

#include "circuit/circuit.hpp"
#include "language/draft.hpp"

namespace idlepoint::language {

/// The type written for a part of that kind. Complains where it is unknown or of another kind; a
/// `?` is noted as a blank.
[[nodiscard]] std::optional<circuit::TypeId> type_of_part(Draft& draft,
                                                          const Statement& statement,
                                                          const Word& word,
                                                          circuit::PartKind kind);

/// Looks in the file and its types files, then on the shelf; takes the type into the circuit.
[[nodiscard]] std::optional<circuit::TypeId> find_type_anywhere(Draft& draft,
                                                                const std::string& name);

/// Takes all types of the shelf into the circuit: for a search among them.
void take_whole_shelf(Draft& draft);

}  // namespace idlepoint::language
