// The answer of `diagnose` as text: what was read, the suspects, the next measurement.
#pragma once

#include <string>
#include <vector>

#include "answers/diagnose.hpp"
#include "report/page.hpp"
#include "solve/conditions.hpp"

namespace idlepoint::report {

/// `taken`: what the command line took from a job, a sentence each.
[[nodiscard]] std::string text_of(const answers::Diagnosis& diagnosis,
                                  const solve::Conditions& conditions,
                                  const std::vector<std::string>& taken,
                                  const Page& page);

/// After one more reading of `diagnose --ask`: what was understood, the suspects, contradictions.
[[nodiscard]] std::string text_after_reading(const answers::Diagnosis& diagnosis, const Page& page);

}  // namespace idlepoint::report
