// The crossover answer in sentences; also said in its JSON, and by `preset` where it gives the aim.
//
// No number is made here but for rounding.
#pragma once

#include <string>
#include <vector>

#include "answers/crossover.hpp"
#include "answers/preset.hpp"

namespace idlepoint::report {

/// "38.2 mV": a reading of the answer in its own unit.
[[nodiscard]] std::string crossover_reading(const answers::Crossover& answer, double reading);

/// "2.4 %", "0.31 %": two figures.
[[nodiscard]] std::string ripple_in_words(const answers::IdleSetting& setting);

/// "dips in the middle", "bulges in the middle"; empty where the gain there is that of the rest.
[[nodiscard]] std::string shape_in_words(const answers::IdleSetting& setting);

/// What marks a row: "flattest", "the file's", "published", "aim", "too hot to leave".
[[nodiscard]] std::string marks_in_words(const answers::Crossover& answer, std::size_t setting);

/// Where the gain is flattest, how broad that is, and where it would get flatter still.
[[nodiscard]] std::string flattest_in_words(const answers::Crossover& answer);

/// That the halves differ by more than any standing current mends; empty where they do not.
[[nodiscard]] std::string halves_in_words(const answers::Crossover& answer);

/// The published rule beside it, or why it says nothing here.
[[nodiscard]] std::string published_in_words(const answers::Crossover& answer);

/// The maker's figure beside it; empty where the file has none.
[[nodiscard]] std::string makers_in_words(const answers::Crossover& answer);

/// What to aim for, and what that is not.
[[nodiscard]] std::string aim_in_words(const answers::Crossover& answer);

/// The same where `preset` gives it: what stands in the place of an `adjust`. Requires `aim`.
[[nodiscard]] std::string aim_in_words(const answers::Preset& preset);

/// How the figures were made, and what they leave out.
[[nodiscard]] std::string how_in_words(const answers::Crossover& answer);

/// All of these that are not empty, in this order.
[[nodiscard]] std::vector<std::string> all_in_words(const answers::Crossover& answer);

}  // namespace idlepoint::report
