// Options that take one value within a range: "--ambient 35C".
#pragma once

#include <string>

#include "options.hpp"
#include "trouble.hpp"
#include "values/unit.hpp"

namespace idlepoint::cli {

/// What `option` says, SI; the last where it was written several times. `range` is shown to whoever
/// left it: "1 % to 150 %".
[[nodiscard]] Tried<double> value_of(const Given& given,
                                     const std::string& option,
                                     values::Unit unit,
                                     double low,
                                     double high,
                                     const char* range);

}  // namespace idlepoint::cli
