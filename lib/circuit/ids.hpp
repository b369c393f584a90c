// Typed indices: a node can never be taken for a part.
#pragma once

#include <compare>
#include <cstddef>

namespace idlepoint::circuit {

/// Index into one of Circuit's lists. Valid for the circuit it came from and for its edited copies:
/// edits append, and mark as absent, but never renumber.
template <class Tag>
struct Id {
  std::size_t index = 0;
  // clang-tidy 14 takes the comparison's own 0 for a pointer.
  friend auto operator<=>(const Id&, const Id&) = default;  // NOLINT(modernize-use-nullptr)
};

using NodeId = Id<struct NodeTag>;
using PartId = Id<struct PartTag>;
using TypeId = Id<struct TypeTag>;
using RailId = Id<struct RailTag>;
using HeatsinkId = Id<struct HeatsinkTag>;
using ReadingId = Id<struct ReadingTag>;

/// The reference node, 0 V, of every circuit.
inline constexpr NodeId ground{0};

}  // namespace idlepoint::circuit
