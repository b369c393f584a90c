// Why a substitute will do or not, a sentence a topic, each with its number and its limit.
//
// Used by the text and the JSON of `swap`, and by `shelf`. No number is made here.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "answers/swap.hpp"
#include "answers/verdict.hpp"

namespace idlepoint::report {

struct Reason {
  std::string topic;                                     ///< "Volts", "Heat", "Place": one word.
  std::string text;                                      ///< Whole sentences.
  answers::Verdict weight = answers::Verdict::suitable;  ///< The best verdict that it leaves open.
};

/// In the order they are weighed at the bench: what would break it first.
[[nodiscard]] std::vector<Reason> reasons_of(const answers::Swap& swap);

/// "suitable", "suitable with care", "unsuitable".
[[nodiscard]] std::string_view word(answers::Verdict verdict) noexcept;

}  // namespace idlepoint::report
