// A kind of part with its article, for sentences.
#pragma once

#include <string>

#include "circuit/part_kind.hpp"

namespace idlepoint::circuit {

/// "a resistor", "an npn", "an n-jfet".
[[nodiscard]] inline std::string a_kind(PartKind kind) {
  const bool vowel_sound = kind == PartKind::inductor || kind == PartKind::npn ||
                           kind == PartKind::n_jfet || kind == PartKind::n_mosfet;
  return (vowel_sound ? "an " : "a ") + std::string(keyword(kind));
}

}  // namespace idlepoint::circuit
