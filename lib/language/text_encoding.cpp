#include "language/text_encoding.hpp"

#include <cstdint>

namespace idlepoint::language {
namespace {

unsigned byte_at(std::string_view text, std::size_t at) {
  return static_cast<unsigned char>(text[at]);
}

// Bytes of the character that begins with `lead`; 0 where no character does.
std::size_t size_from_lead(unsigned lead) {
  if (lead < 0x80U) return 1;
  if (lead >= 0xc2U && lead <= 0xdfU) return 2;
  if (lead >= 0xe0U && lead <= 0xefU) return 3;
  if (lead >= 0xf0U && lead <= 0xf4U) return 4;
  return 0;
}

// The code point at the start of `text`; 0 bytes where it is not well formed.
struct Character {
  std::uint32_t code = 0;
  std::size_t size = 0;
};

Character first_character(std::string_view text) {
  const unsigned lead = byte_at(text, 0);
  const std::size_t size = size_from_lead(lead);
  if (size == 0 || size > text.size()) return {};
  static constexpr unsigned lead_bits[] = {0U, 0x7fU, 0x1fU, 0x0fU, 0x07U};
  static constexpr std::uint32_t least[] = {0U, 0U, 0x80U, 0x800U, 0x10000U};
  std::uint32_t code = lead & lead_bits[size];
  for (std::size_t at = 1; at < size; ++at) {
    const unsigned next = byte_at(text, at);
    if ((next & 0xc0U) != 0x80U) return {};
    code = (code << 6U) | (next & 0x3fU);
  }
  const bool surrogate = code >= 0xd800U && code <= 0xdfffU;
  if (code < least[size] || surrogate || code > 0x10ffffU) return {};
  return {code, size};
}

bool is_ascii_letter_or_digit(std::uint32_t code) {
  return (code >= 'a' && code <= 'z') || (code >= 'A' && code <= 'Z') ||
         (code >= '0' && code <= '9');
}

bool is_other_letter(std::uint32_t code) {
  if (code == 0xd7U || code == 0xf7U) return false;  // The signs for times and divided by.
  const bool latin = code >= 0xc0U && code <= 0x24fU;
  const bool greek_or_cyrillic = code >= 0x388U && code <= 0x481U;
  return latin || greek_or_cyrillic;
}

}  // namespace

std::optional<std::size_t> first_byte_that_is_no_text(std::string_view text) {
  std::size_t at = 0;
  while (at < text.size()) {
    if (text[at] == '\0') return at;
    const std::size_t size = first_character(text.substr(at)).size;
    if (size == 0) return at;
    at += size;
  }
  return std::nullopt;
}

std::string only_text(std::string_view text) {
  std::string shown;
  while (const auto at = first_byte_that_is_no_text(text)) {
    shown += text.substr(0, *at);
    shown += '?';
    text.remove_prefix(*at + 1);
  }
  shown += text;
  return shown;
}

bool begins_with_letter(std::string_view text, std::size_t& size) {
  const Character character = first_character(text);
  size = character.size == 0 ? 1 : character.size;
  return character.size > 0 &&
         (is_ascii_letter_or_digit(character.code) || is_other_letter(character.code));
}

}  // namespace idlepoint::language
