#include "answers/fit.hpp"

#include <fmt/format.h>

#include <Eigen/SVD>
#include <algorithm>
#include <cmath>

#include "answers/fit_classes.hpp"
#include "answers/fit_course.hpp"
#include "answers/fit_judgement.hpp"
#include "answers/fit_problem.hpp"
#include "answers/fit_spread.hpp"
#include "circuit/sentence.hpp"
#include "circuit/type_fields.hpp"
#include "values/format.hpp"

namespace idlepoint::answers {
namespace {

using circuit::TypePoint;
using circuit::TypePoints;
using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

std::size_t at(Index index) { return static_cast<std::size_t>(index); }

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
  constexpr double least_of_largest = 0.3;
  constexpr std::size_t most_points = 3;
  std::vector<std::pair<double, std::size_t>> shares;
  for (std::size_t i = 0; i < asked.points.size(); ++i) {
    shares.emplace_back(
        residual_shares.segment(rows_a_point * static_cast<Index>(i), rows_a_point).norm(), i);
  }
  const double largest = std::max_element(shares.begin(), shares.end())->first;
  std::erase_if(shares, [&](const auto& one) { return one.first < least_of_largest * largest; });
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

std::string limits_in_words(const std::vector<std::size_t>& limits, const TypePoints& asked) {
  if (limits.empty()) return "the points";
  std::vector<std::string> words;
  for (const std::size_t i : limits) words.push_back(circuit::point_in_words(asked.points[i]));
  return fmt::format(
      "the limit{} of {}", limits.size() == 1 ? "" : "s", circuit::list_words(words));
}

void describe_undetermined(const FitProblem& problem,
                           const TypePoints& asked,
                           const FitCourse& course,
                           std::size_t variable,
                           FitField& field) {
  constexpr double hardly_moved = 0.02;
  const FitParameter& parameter = problem.parameters()[variable];
  if (course.vanished[variable]) {
    field.value.reset();
    field.why = "the points show nothing of it; left out";
    return;
  }
  field.why = why_not(parameter, course.choice.why_not[variable], problem.parameters());
  if (problem.uses[variable] == Use::left_out) {
    field.value.reset();
    field.why += "; left out";
    return;
  }
  field.why += "; taken: " + parameter.basis;
  if (std::abs(problem.u[static_cast<Index>(variable)]) > hardly_moved) {
    field.why += ", moved to suit " + limits_in_words(course.limits, asked);
  }
}

std::vector<FitField> fields_of(const FitProblem& problem,
                                const TypePoints& asked,
                                const FitCourse& course) {
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

/// "The points lie between 10 mA and 4 A: ...": how far the type may be trusted.
void add_range(const TypePoints& asked, std::vector<std::string>& notes) {
  double low_a = INFINITY;
  double high_a = 0.0;
  for (const TypePoint& point : asked.points) {
    if (circuit::facts(point.quantity).conditions[0].unit != values::Unit::ampere) continue;
    low_a = std::min(low_a, point.at[0]);
    high_a = std::max(high_a, point.at[0]);
  }
  if (high_a == 0.0) return;
  const auto words = [](double a) { return values::format_value(a, values::Unit::ampere); };
  notes.push_back(
      low_a == high_a
          ? fmt::format("All points lie at {}: far from there the type is a guess.", words(low_a))
          : fmt::format("The points lie between {} and {}: beyond, the type is a guess.",
                        words(low_a),
                        words(high_a)));
}

/// What a part must be that shows so few volts: common knowledge of junctions, no source.
void add_germanium(const TypePoints& asked, std::vector<std::string>& notes) {
  constexpr double silicon_shows_more_v = 0.4;
  constexpr double from_a = 0.5e-3;
  constexpr double silicon_gap_ev = 1.0;
  if (circuit::field_value(asked.type, "band_gap").value_or(0.0) < silicon_gap_ev) return;
  for (const TypePoint& point : asked.points) {
    const bool is_junction = point.quantity == circuit::PointQuantity::vbe ||
                             point.quantity == circuit::PointQuantity::vf;
    if (!is_junction || !point.value || *point.value > silicon_shows_more_v) continue;
    if (point.at[0] < from_a) continue;
    notes.push_back(fmt::format(
        "{} at {} is what germanium shows, and this type is fitted as silicon: if it is germanium, "
        "write `band_gap=0.74eV` and its `max_junction_temperature`, 90 to 100 C.",
        values::format_value(*point.value, values::Unit::volt),
        values::format_value(point.at[0], values::Unit::ampere)));
    return;
  }
}

/// The usual figures go by the size of the part; without a rating it is guessed from the points.
void add_size(const TypePoints& asked, std::vector<std::string>& notes) {
  if (asked.type.ratings.max_current_a || asked.type.kind == circuit::PartKind::n_jfet ||
      asked.type.kind == circuit::PartKind::p_jfet) {
    return;
  }
  notes.push_back(fmt::format(
      "No largest current is given: {} is taken for what goes by the size of the part. Write it "
      "beside the other ratings.",
      values::format_value(size_a(asked), values::Unit::ampere)));
}

}  // namespace

TypeFit ask_fit(const TypePoints& asked) {
  FitProblem problem(asked);
  const FitCourse course = fit_freely(problem);
  TypeFit fit;
  fit.type = asked.type;
  fit.type.law = problem.law();
  fit.type.source = source_of(asked);
  fit.fields = fields_of(problem, asked, course);
  fit.points = points_of(problem, asked);
  add_usual_conditions(asked, fit.notes);
  add_range(asked, fit.notes);
  add_size(asked, fit.notes);
  add_germanium(asked, fit.notes);
  set_spreads(asked, fit);
  fit.contradictions = contradictions_of(asked, fit);
  return fit;
}

bool is_good(const TypeFit& fit) noexcept { return fit.contradictions.empty(); }

}  // namespace idlepoint::answers
