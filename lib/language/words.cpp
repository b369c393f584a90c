// Words of a text in sentences: their places, their quotes.
#include <string>
#include <utility>

#include "language/lexer.hpp"

namespace idlepoint::language {

complaints::Place place_of(const Word& word) { return place_of(word, quote(word.text)); }

complaints::Place place_of(const Word& word, std::string remark) {
  return word.source->place(word.offset, std::move(remark));
}

std::string quote(std::string_view text) {
  constexpr std::size_t longest = 60;
  if (text.size() <= longest) return "`" + std::string(text) + "`";
  std::size_t end = longest / 2;
  while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xc0U) == 0x80U) --end;
  return "`" + std::string(text.substr(0, end)) + "...`";
}

}  // namespace idlepoint::language
