// Which fields a set of points determines, and the fit of these.
//
// Used by answers/fit. A limit has to hold, and determines nothing.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "answers/fit_problem.hpp"

namespace idlepoint::answers {

/// Why a variable was not freed.
struct Undetermined {
  bool is_felt = false;                ///< By some point, though not apart from `like`.
  std::optional<Eigen::Index> like{};  ///< The freed variable that it cannot be told from.
};

struct Choice {
  std::vector<bool> is_free;
  std::vector<Undetermined> why_not;
};

/// What the fit came to, beside the variables themselves.
struct FitCourse {
  Choice choice;
  std::vector<bool> vanished;
  std::vector<std::size_t> limits;  ///< Points whose limit the fit came up against.
};

/// The slopes of the points' values alone: the rows of their limits are nothing.
[[nodiscard]] Eigen::MatrixXd value_slopes(const FitProblem& problem);

/// Fits what the points determine. First all variables, drawn to their usual values, to see which
/// the points know; then these freely, the others still drawn: they move no further than limits,
/// and points that do not quite fit together, make them.
[[nodiscard]] FitCourse fit_freely(FitProblem& problem);

}  // namespace idlepoint::answers
