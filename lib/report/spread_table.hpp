// The readings over many stages as lines: nominal parts, 19 stages in 20, and once each is set.
//
// Used by the spread report alone.
#pragma once

#include <string>

#include "answers/spread.hpp"

namespace idlepoint::report {

/// Empty without readings. The last column stands only where the stages were set one by one.
[[nodiscard]] std::string spread_table(const answers::Spread& answer);

/// "3.1 mV to 19.4 mV", or "no state" where there is none.
[[nodiscard]] std::string middle_in_words(const std::optional<answers::Distribution>& values,
                                          answers::ReadingUnit unit);

}  // namespace idlepoint::report
