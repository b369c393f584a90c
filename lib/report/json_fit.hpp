// The answer of `fit` as JSON; keys of docs/commands.md.
#pragma once

#include <string>

#include "answers/fit.hpp"

namespace idlepoint::report {

[[nodiscard]] std::string json_of(const answers::TypeFit& fit, const std::string& statement);

}  // namespace idlepoint::report
