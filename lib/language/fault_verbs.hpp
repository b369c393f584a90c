// What happens to a part: `open`, `short c-e`, `is 2k2`, one function a verb.
//
// Used by fault_words.cpp. Source: docs/language.md, "Faults, as written on a command line".
#pragma once

#include <optional>
#include <span>
#include <string_view>

#include "circuit/edits.hpp"
#include "language/draft.hpp"

namespace idlepoint::language {

/// One fault being read: the part it is about, its verb, and the words behind the verb.
struct Fault {
  Draft& draft;
  circuit::PartId part;
  const Word& name;
  const Word& verb;
  std::span<const Word> rest;

  [[nodiscard]] circuit::PartKind kind() const { return draft.circuit.at(part).kind; }
};

struct FaultVerb {
  std::string_view word;
  /// The edit; complains where the words say none, or where it does not fit the part.
  std::optional<circuit::Edit> (*read)(const Fault&);
};

[[nodiscard]] std::span<const FaultVerb> all_fault_verbs() noexcept;

}  // namespace idlepoint::language
