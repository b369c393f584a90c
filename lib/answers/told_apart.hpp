// Which explanations are still in after the readings, what each foretells, and which of them no
// reading tells apart.
//
// Used by the diagnosis.
#pragma once

#include <optional>
#include <vector>

#include "answers/diagnose.hpp"
#include "answers/explained.hpp"
#include "answers/next_measurement.hpp"

namespace idlepoint::answers {

struct Contender {
  const Explanation* explanation = nullptr;
  double share = 0.0;  ///< Of all odds after the readings.
  std::optional<Foretold> foretold = {};
};

struct Group {
  std::vector<std::size_t> members;  ///< Among the contenders: a sound stage, then the likeliest.
  double share = 0.0;
};

struct ToldApart {
  std::vector<Contender> contenders = {};  ///< Likeliest first; the least are left out.
  std::vector<Group> groups = {};          ///< Likeliest first.
  std::vector<circuit::Measurement> measurements = {};  ///< That are foretold.
  double none_share = 0.0;                              ///< Of "none of these".
  double left_share = 0.0;                              ///< Of all those that are left out.
};

/// `all`: those without a fit are out. `none_log_posterior`: of "none of these".
[[nodiscard]] ToldApart tell_apart(const DiagnoseAsked& asked,
                                   const Evidence& evidence,
                                   const std::vector<const Explanation*>& all,
                                   double none_log_posterior);

}  // namespace idlepoint::answers
