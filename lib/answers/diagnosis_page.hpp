// From explanations with their evidence to what is told: groups that no reading tells apart, odds,
// what is ruled out, what contradicts, what to measure next.
//
// Used by the diagnosis alone.
#pragma once

#include <vector>

#include "answers/diagnose.hpp"
#include "answers/explained.hpp"

namespace idlepoint::answers {

/// `all`: those without a fit are out. `none_log_posterior`: of "none of these".
[[nodiscard]] Diagnosis make_page(const DiagnoseAsked& asked,
                                  const Evidence& evidence,
                                  const std::vector<const Explanation*>& all,
                                  double none_log_posterior);

}  // namespace idlepoint::answers
