// Options that put something on for a time: "20W:10min".
#pragma once

#include <optional>
#include <string>

#include "options.hpp"
#include "trouble.hpp"
#include "values/unit.hpp"

namespace idlepoint::cli {

struct ForATime {
  double amount = 0.0;  ///< SI.
  double lasts_s = 0.0;
};

/// What `option` says, none where it was not written. AMOUNT:TIME; the time is more than 0 and at
/// most a day, in s, min or h. `example` is shown to whoever wrote it otherwise.
[[nodiscard]] Tried<std::optional<ForATime>> read_for_a_time(const Given& given,
                                                             const std::string& option,
                                                             values::Unit unit,
                                                             const std::string& example);

}  // namespace idlepoint::cli
