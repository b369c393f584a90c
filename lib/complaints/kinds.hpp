// The list of everything the tool can complain about in a file or on a command line.
//
// One line a kind. A test asks for a broken file in netlists/broken, an approved text and an entry
// in docs/complaints.md for each; so a kind is added here first.
#pragma once

#include <cstddef>
#include <span>
#include <string_view>

namespace idlepoint::complaints {

/// How grave a complaint is, and at which stop of the way it is found.
enum class Gravity {
  unreadable,     ///< Grammar, values, unknown names: the text says nothing certain.
  drawing_error,  ///< The text is clear, the circuit it draws cannot be right.
  warning,        ///< Worth a look; does not stop a solve.
};

/// A kind of complaint: an index into `all_kinds()`, made only by `kind("short-name")`.
struct Kind {
  std::size_t index;
  friend bool operator==(const Kind&, const Kind&) = default;
};

struct KindFacts {
  std::string_view name;  ///< Stable: users and scripts may rely on it.
  Gravity gravity;
};

[[nodiscard]] std::span<const KindFacts> all_kinds() noexcept;

/// The kind of that short name. An unknown name is a bug: asserts, and is a compile error where the
/// name is a constant expression.
[[nodiscard]] Kind kind(std::string_view name);

[[nodiscard]] const KindFacts& facts(Kind kind) noexcept;

}  // namespace idlepoint::complaints
