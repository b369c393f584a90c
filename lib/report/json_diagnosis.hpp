// The answer of `diagnose` as JSON. Keys: docs/commands.md, "diagnose".
#pragma once

#include <string>
#include <vector>

#include "answers/diagnose.hpp"
#include "solve/conditions.hpp"

namespace idlepoint::report {

/// `taken`: what the command line took from a job, a sentence each.
[[nodiscard]] std::string json_of(const answers::Diagnosis& diagnosis,
                                  const solve::Conditions& conditions,
                                  const std::vector<std::string>& taken);

}  // namespace idlepoint::report
