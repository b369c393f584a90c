// What a lead is joined to: a named node, the wire at another part's lead, or nothing.
//
// `Q603.c` stands for the wire at that lead; leads that only refer to each other make one wire,
// named after the first. Source: docs/language.md, "Grammar".
#pragma once

#include <optional>
#include <span>

#include "circuit/circuit.hpp"
#include "language/draft.hpp"

namespace idlepoint::language {

/// Takes up a part with its leads as written, in the order of `lead_names`: null is a lead that is
/// left off without a word. The part's `leads` are filled by `resolve_nodes`.
circuit::PartId add_part(Draft& draft,
                         circuit::Part part,
                         const Word& name,
                         std::span<const Word* const> leads);

/// Takes up the node of the rail that was added last.
void use_rail_node(Draft& draft, std::size_t rail, const Word& node);

/// Gives every lead and rail its node, once all parts are known. Nodes are numbered in the order in
/// which the file names them. Cost: linear.
void resolve_nodes(Draft& draft);

/// The node that `word` names, after `resolve_nodes`; complains where there is none.
[[nodiscard]] std::optional<circuit::NodeId> node_named(Draft& draft, const Word& word);

/// The index of a lead of a part's kind by its name ("c", "wiper", "1"); 1 and 2 do for any part of
/// two leads.
[[nodiscard]] std::optional<std::size_t> lead_index(circuit::PartKind kind, std::string_view name);

/// "`c`, `b` or `e`".
[[nodiscard]] std::string lead_choices(circuit::PartKind kind);

}  // namespace idlepoint::language
