#include "answers/fit_course.hpp"

#include <algorithm>
#include <cmath>

namespace idlepoint::answers {
namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

/// The points know a field better than its class does where their residuals move by this much when
/// it moves by its width and all that was freed before it follows.
constexpr double least_knowledge = 0.5;
/// A variable this near (as a share of its range) to where its term vanishes has left it.
constexpr double vanishing_share = 0.02;

/// Frees the variables in their order: each where its column, less what those before it explain, is
/// long enough.
Choice choose(const MatrixXd& point_slopes) {
  Choice choice;
  std::vector<VectorXd> basis;
  std::vector<Index> chosen;
  for (Index i = 0; i < point_slopes.cols(); ++i) {
    const VectorXd column = point_slopes.col(i);
    VectorXd rest = column;
    for (const VectorXd& direction : basis) rest -= direction.dot(rest) * direction;
    const bool is_free = rest.norm() > least_knowledge;
    choice.is_free.push_back(is_free);
    choice.why_not.emplace_back();
    if (is_free) {
      basis.push_back(rest.normalized());
      chosen.push_back(i);
      continue;
    }
    if (column.norm() <= least_knowledge) continue;
    choice.why_not.back().is_felt = true;
    double nearest = 0.0;
    for (const Index other : chosen) {
      const double likeness =
          std::abs(column.normalized().dot(point_slopes.col(other).normalized()));
      if (likeness <= nearest) continue;
      nearest = likeness;
      choice.why_not.back().like = other;
    }
  }
  return choice;
}

/// True where a term has gone: a resistance to nothing, a knee or an Early voltage out of sight.
bool has_vanished(const FitParameter& parameter, double u) {
  const std::string_view field = parameter.field;
  const double low = u_of(parameter, parameter.low);
  const double high = u_of(parameter, parameter.high);
  const double share = (u - low) / (high - low);
  if (field == "knee_current" || field == "early_voltage") return share > 1.0 - vanishing_share;
  const bool from_below = field.ends_with("_resistance") || field == "recombination_current" ||
                          field == "drain_slope" || field == "cutoff_current";
  return from_below && share < vanishing_share;
}

/// Leaves out the free terms that have gone; true where there was one.
bool leave_out_vanished(FitProblem& problem, std::vector<bool>& vanished) {
  bool has_changed = false;
  for (std::size_t i = 0; i < problem.parameters().size(); ++i) {
    if (problem.uses[i] != Use::free) continue;
    if (!has_vanished(problem.parameters()[i], problem.u[static_cast<Index>(i)])) continue;
    problem.uses[i] = Use::left_out;
    vanished[i] = has_changed = true;
  }
  return has_changed;
}

}  // namespace

MatrixXd value_slopes(const FitProblem& problem) {
  MatrixXd slopes = problem.point_slopes();
  for (Index row = 0; row < slopes.rows(); ++row) {
    if (row % FitProblem::rows_a_point != 0) slopes.row(row).setZero();
  }
  return slopes;
}

FitCourse fit_freely(FitProblem& problem) {
  problem.uses.assign(problem.uses.size(), Use::pulled);
  problem.fit();
  const auto& parameters = problem.parameters();
  FitCourse course{.choice = choose(value_slopes(problem)),
                   .vanished = std::vector<bool>(parameters.size(), false),
                   .limits = {}};
  for (std::size_t i = 0; i < parameters.size(); ++i) {
    if (course.choice.is_free[i]) problem.uses[i] = Use::free;
    if (!course.choice.is_free[i] && parameters[i].is_left_out) problem.uses[i] = Use::left_out;
  }
  do {
    problem.fit();
  } while (leave_out_vanished(problem, course.vanished));
  course.limits = problem.touched_limits();
  return course;
}

}  // namespace idlepoint::answers
