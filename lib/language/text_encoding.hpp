// Is this text at all? The first byte that UTF-8 does not allow.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace idlepoint::language {

/// Offset of the first NUL or of the first byte that is not well-formed UTF-8 (RFC 3629: no
/// overlong forms, no surrogates, nothing above U+10FFFF).
[[nodiscard]] std::optional<std::size_t> first_byte_that_is_no_text(std::string_view text);

/// The text with `?` in place of every such byte: what may be shown and written to JSON.
[[nodiscard]] std::string only_text(std::string_view text);

/// True where the character at the start of `text` is a letter or a digit that a name may hold:
/// ASCII, and the letters of Latin, Greek and Cyrillic. `size` is set to its bytes.
[[nodiscard]] bool begins_with_letter(std::string_view text, std::size_t& size);

}  // namespace idlepoint::language
