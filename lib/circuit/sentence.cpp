#include "circuit/sentence.hpp"

#include <fmt/format.h>

namespace idlepoint::circuit {

std::string a_kind(PartKind kind) {
  const bool vowel_sound = kind == PartKind::inductor || kind == PartKind::npn ||
                           kind == PartKind::n_jfet || kind == PartKind::n_mosfet;
  return fmt::format("{} {}", vowel_sound ? "an" : "a", keyword(kind));
}

std::string list_words(const std::vector<std::string>& words) {
  if (words.size() == 1) return words.front();
  return fmt::format("{} and {}", fmt::join(words.begin(), words.end() - 1, ", "), words.back());
}

}  // namespace idlepoint::circuit
