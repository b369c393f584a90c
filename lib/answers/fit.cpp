#include "answers/fit.hpp"

#include <fmt/format.h>

#include <Eigen/SVD>
#include <algorithm>
#include <cmath>

#include "answers/fit_judgement.hpp"
#include "answers/fit_problem.hpp"
#include "answers/fit_spread.hpp"
#include "circuit/sentence.hpp"

namespace idlepoint::answers {
namespace {

using circuit::TypePoint;
using circuit::TypePoints;
using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

/// The points know a field better than its class does where their residuals move by this much when
/// it moves by its width and all that was freed before it follows.
constexpr double least_knowledge = 0.5;
/// A variable this near (as a share of its range) to where its term vanishes has left it.
constexpr double vanishing_share = 0.02;

/// The rows of the points' values: a limit has to hold, but it tells little.
MatrixXd value_slopes(const FitProblem& problem) {
  MatrixXd slopes = problem.point_slopes();
  for (Index row = 0; row < slopes.rows(); ++row) {
    if (row % FitProblem::rows_a_point != 0) slopes.row(row).setZero();
  }
  return slopes;
}

/// Why a variable was not freed.
struct Undetermined {
  bool is_felt = false;         ///< By some point, though not apart from `like`.
  std::optional<Index> like{};  ///< The freed variable that it cannot be told from.
};

struct Choice {
  std::vector<bool> is_free;
  std::vector<Undetermined> why_not;
};

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

std::size_t at(Index index) { return static_cast<std::size_t>(index); }

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

/// The free variables' standard deviations in u, and how much of each comes from which residual: a
/// column a variable, whose numbers sum to 1.
struct Knowledge {
  std::vector<Index> free;
  MatrixXd shares;
  VectorXd deviations;
};

Knowledge knowledge_of(const FitProblem& problem) {
  Knowledge known;
  for (std::size_t i = 0; i < problem.uses.size(); ++i) {
    if (problem.uses[i] == Use::free) known.free.push_back(static_cast<Index>(i));
  }
  if (known.free.empty()) return known;
  const MatrixXd jacobian = value_slopes(problem)(Eigen::all, known.free);
  const Eigen::JacobiSVD<MatrixXd> svd(jacobian, Eigen::ComputeThinU | Eigen::ComputeThinV);
  const VectorXd values = svd.singularValues();
  VectorXd inverse = VectorXd::Zero(values.size());
  for (Index i = 0; i < values.size(); ++i) {
    if (values[i] > 1e-9 * values[0]) inverse[i] = 1.0 / values[i];
  }
  const MatrixXd weights = svd.matrixU() * inverse.asDiagonal() * svd.matrixV().transpose();
  known.shares = weights.cwiseProduct(jacobian);
  known.deviations = weights.colwise().norm().transpose();
  return known;
}

/// "vbe at ic 10 mA and gain at ic 1 A": the points that a variable comes from, at most three.
std::string points_behind(const VectorXd& residual_shares, const TypePoints& asked) {
  constexpr Index rows_a_point = FitProblem::rows_a_point;
  constexpr double least_share = 0.3;
  constexpr std::size_t most_points = 3;
  std::vector<std::pair<double, std::size_t>> shares;
  for (std::size_t i = 0; i < asked.points.size(); ++i) {
    shares.emplace_back(
        residual_shares.segment(rows_a_point * static_cast<Index>(i), rows_a_point).norm(), i);
  }
  const double largest = std::max_element(shares.begin(), shares.end())->first;
  std::erase_if(shares, [&](const auto& one) { return one.first < least_share * largest; });
  std::sort(shares.begin(), shares.end(), std::greater<>());
  if (shares.size() > most_points) shares.resize(most_points);
  std::sort(shares.begin(), shares.end(), [](const auto& a, const auto& b) {
    return a.second < b.second;
  });
  std::vector<std::string> words;
  for (const auto& [share, i] : shares) words.push_back(circuit::point_in_words(asked.points[i]));
  return circuit::list_words(words);
}

std::string why_not(const FitParameter& parameter,
                    const Undetermined& reason,
                    const std::vector<FitParameter>& all) {
  if (reason.is_felt && reason.like) {
    return fmt::format(
        "{} that would tell it from `{}`", parameter.lacking, all[at(*reason.like)].field);
  }
  return parameter.lacking;
}

std::optional<double> number_in(const Law& law, const FitParameter& parameter) {
  return std::visit(
      [&]<class Data>(const MemberOf<Data>& member) {
        return std::visit(
            [&](auto where) -> std::optional<double> { return std::get<Data>(law).*where; },
            member);
      },
      parameter.member);
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

/// Where a limit is broken, the fields that nothing determines give way as little as they must.
std::vector<std::size_t> give_way(FitProblem& problem) {
  const std::vector<std::size_t> broken = problem.broken_limits();
  if (broken.empty()) return broken;
  for (std::size_t i = 0; i < problem.uses.size(); ++i) {
    if (problem.uses[i] != Use::usual) continue;
    problem.uses[i] = Use::pulled;
    problem.u[static_cast<Index>(i)] = 0.0;
  }
  problem.fit();
  return broken;
}

/// What the fit came to, beside the variables themselves.
struct Course {
  Choice choice;
  std::vector<bool> vanished;
  std::vector<std::size_t> limits;  ///< Points whose limit moved what is not determined.
};

/// Fits what the points determine. First all variables, drawn to their usual values, to see which
/// the points know; then these alone and freely; then the limits.
Course fit_freely(FitProblem& problem) {
  problem.uses.assign(problem.uses.size(), Use::pulled);
  problem.fit();
  const auto& parameters = problem.parameters();
  Course course{.choice = choose(value_slopes(problem)),
                .vanished = std::vector<bool>(parameters.size(), false),
                .limits = {}};
  for (std::size_t i = 0; i < parameters.size(); ++i) {
    const Use without = parameters[i].is_left_out ? Use::left_out : Use::usual;
    problem.uses[i] = course.choice.is_free[i] ? Use::free : without;
  }
  do {
    problem.fit();
  } while (leave_out_vanished(problem, course.vanished));
  course.limits = give_way(problem);
  return course;
}

void describe_free(const Knowledge& known,
                   Index column,
                   const FitParameter& parameter,
                   const TypePoints& asked,
                   FitField& field) {
  field.determined = true;
  field.why = "from " + points_behind(known.shares.col(column), asked);
  const double deviation = known.deviations[column] * parameter.width;
  field.known_to = parameter.is_logarithmic ? std::expm1(deviation)
                                            : deviation / std::abs(field.value.value_or(1.0));
}

void describe_undetermined(const FitProblem& problem,
                           const TypePoints& asked,
                           const Course& course,
                           std::size_t variable,
                           FitField& field) {
  constexpr double hardly_moved = 0.02;
  const FitParameter& parameter = problem.parameters()[variable];
  if (course.vanished[variable]) {
    field.value.reset();
    field.why = "the points show nothing of it: left out";
    return;
  }
  field.why = why_not(parameter, course.choice.why_not[variable], problem.parameters());
  if (problem.uses[variable] == Use::left_out) {
    field.value.reset();
    field.why += ": left out";
  } else if (problem.uses[variable] == Use::pulled &&
             std::abs(problem.u[static_cast<Index>(variable)]) > hardly_moved) {
    std::vector<std::string> words;
    for (const std::size_t i : course.limits) {
      words.push_back(circuit::point_in_words(asked.points[i]));
    }
    field.why += fmt::format(": usual would be {}; moved to keep the limit of {}",
                             parameter.basis,
                             circuit::list_words(words));
  } else {
    field.why += ": left at what is usual, " + parameter.basis;
  }
}

std::vector<FitField> fields_of(const FitProblem& problem,
                                const TypePoints& asked,
                                const Course& course) {
  const Knowledge known = knowledge_of(problem);
  const Law law = problem.law();
  std::vector<FitField> fields;
  for (std::size_t i = 0; i < problem.parameters().size(); ++i) {
    const FitParameter& parameter = problem.parameters()[i];
    FitField field;
    field.name = parameter.field;
    field.value = number_in(law, parameter);
    const auto place = std::find(known.free.begin(), known.free.end(), static_cast<Index>(i));
    if (place != known.free.end()) {
      describe_free(known, place - known.free.begin(), parameter, asked, field);
    } else {
      describe_undetermined(problem, asked, course, i, field);
    }
    fields.push_back(std::move(field));
  }
  return fields;
}

std::vector<FitPoint> points_of(const FitProblem& problem, const TypePoints& asked) {
  const Law law = problem.law();
  std::vector<FitPoint> points;
  for (std::size_t i = 0; i < asked.points.size(); ++i) {
    const TypePoint& point = asked.points[i];
    const FitTarget& target = problem.targets()[i];
    FitPoint result;
    result.text = circuit::point_in_words(point);
    result.unit = circuit::facts(point.quantity).unit;
    result.predicted = problem.predicted(law, i);
    if (target.aim) result.aim = unscaled(target, *target.aim);
    if (result.aim && result.predicted) {
      result.residual = (*result.predicted - *result.aim) / std::abs(*result.aim);
    }
    if (point.min || point.max) {
      result.holds = result.predicted && (!point.min || *result.predicted >= *point.min) &&
                     (!point.max || *result.predicted <= *point.max);
    }
    points.push_back(std::move(result));
  }
  return points;
}

/// The type's source and the notes of its points: "maker's sheet; from memory: vbe at ic 10 mA".
std::string source_of(const TypePoints& asked) {
  std::vector<std::string> notes;
  for (const TypePoint& point : asked.points) {
    if (!point.note.empty() && std::find(notes.begin(), notes.end(), point.note) == notes.end()) {
      notes.push_back(point.note);
    }
  }
  std::string text = asked.type.source;
  for (const std::string& note : notes) {
    std::vector<std::string> words;
    for (const TypePoint& point : asked.points) {
      if (point.note == note) words.push_back(circuit::point_in_words(point));
    }
    text += (text.empty() ? "" : "; ") + note + ": " + circuit::list_words(words);
  }
  return text;
}

void add_usual_conditions(const TypePoints& asked, std::vector<std::string>& notes) {
  std::vector<std::string> said;
  for (const TypePoint& point : asked.points) {
    const auto& row = circuit::facts(point.quantity);
    for (std::size_t i = 0; i < row.conditions.size(); ++i) {
      const std::string key(row.conditions[i].key);
      if (!point.at_usual[i] || std::find(said.begin(), said.end(), key) != said.end()) continue;
      said.push_back(key);
      notes.push_back(
          fmt::format("Where a point does not give `{}`, {} V is taken.", key, point.at[i]));
    }
  }
}

}  // namespace

TypeFit ask_fit(const TypePoints& asked) {
  FitProblem problem(asked);
  const Course course = fit_freely(problem);
  TypeFit fit;
  fit.type = asked.type;
  fit.type.law = problem.law();
  fit.type.source = source_of(asked);
  fit.fields = fields_of(problem, asked, course);
  fit.points = points_of(problem, asked);
  add_usual_conditions(asked, fit.notes);
  set_spreads(asked, fit);
  fit.contradictions = contradictions_of(asked, fit);
  return fit;
}

bool is_good(const TypeFit& fit) noexcept { return fit.contradictions.empty(); }

}  // namespace idlepoint::answers
