#include "solve/bordered_newton.hpp"

#include <Eigen/LU>
#include <algorithm>
#include <cmath>

#include "solve/newton.hpp"
#include "solve/probe_gradient.hpp"

namespace idlepoint::solve {
namespace {

std::size_t at(Index index) { return static_cast<std::size_t>(index); }

double dot(std::span<const double> a, std::span<const double> b, std::size_t size) {
  double sum = 0.0;
  for (std::size_t k = 0; k < size; ++k) sum += a[k] * b[k];
  return sum;
}

/// The border of one step: how the unknowns answer to each travel, and the readings' own equations.
struct Border {
  std::vector<std::vector<double>> answers;  ///< [wanted][unknowns + 1] dx/d(travel).
  Eigen::MatrixXd matrix;                    ///< d(reading)/d(travel), all answers included.
  std::vector<ProbeGradient> readings;
};

bool make_border(const circuit::Circuit& circuit,
                 StageSolver& solver,
                 const IdealCurrents& ideals,
                 std::span<const Wanted> wanted,
                 Border& border) {
  const System& system = solver.system();
  Work& work = solver.work();
  const std::size_t size = at(system.unknowns);
  const auto count = static_cast<Eigen::Index>(wanted.size());
  border.answers.assign(wanted.size(), std::vector<double>(size + 1, 0.0));
  border.readings.clear();
  factor_slopes(system, work);
  for (std::size_t k = 0; k < wanted.size(); ++k) {
    border.readings.push_back(
        probe_gradient(circuit, wanted[k].probe, system, solver.numbers(), ideals, work));
    auto& answer = border.answers[k];
    balance_by_travel(circuit, system, solver.numbers(), wanted[k].track, work, answer);
    for (double& entry : answer) entry = -entry;
    if (!solve_factored(system, work, answer)) return false;
  }
  border.matrix.resize(count, count);
  for (Eigen::Index j = 0; j < count; ++j) {
    for (Eigen::Index k = 0; k < count; ++k) {
      const ProbeGradient& reading = border.readings[static_cast<std::size_t>(j)];
      const auto trimmer = static_cast<std::size_t>(k);
      border.matrix(j, k) = dot(reading.by_unknown, border.answers[trimmer], size) +
                            reading.by_travel[wanted[trimmer].track];
    }
  }
  return true;
}

/// Every reading at its target to far below what a meter shows.
bool is_on_target(std::span<const Wanted> wanted, const Border& border) {
  for (std::size_t k = 0; k < wanted.size(); ++k) {
    const double miss = std::abs(border.readings[k].value - wanted[k].target);
    if (!(miss <= 1e-9 * std::abs(wanted[k].target) + 1e-12)) return false;
  }
  return true;
}

void set_travels(const circuit::Circuit& circuit,
                 StageSolver& solver,
                 std::span<const Wanted> wanted,
                 std::span<const double> travels) {
  for (std::size_t k = 0; k < wanted.size(); ++k) {
    solver.set_travel(circuit, wanted[k].track, travels[k]);
  }
}

/// Moves state and travels by one bordered step; false where the readings do not answer.
bool take_step(const circuit::Circuit& circuit,
               StageSolver& solver,
               std::span<const Wanted> wanted,
               const Border& border,
               State& state,
               std::span<double> travels) {
  constexpr double longest_step = 0.2;
  const System& system = solver.system();
  const std::size_t size = at(system.unknowns);
  std::vector<double> step(size + 1);
  for (std::size_t k = 0; k < size; ++k) step[k] = -solver.work().balance_a[k];
  if (!solve_factored(system, solver.work(), step)) return false;
  Eigen::VectorXd right(border.matrix.rows());
  for (Eigen::Index j = 0; j < right.size(); ++j) {
    const auto k = static_cast<std::size_t>(j);
    right[j] = wanted[k].target - border.readings[k].value -
               dot(border.readings[k].by_unknown, step, size);
  }
  const Eigen::VectorXd moves = border.matrix.fullPivLu().solve(right);
  if (!moves.allFinite()) return false;
  for (std::size_t k = 0; k < wanted.size(); ++k) {
    const double asked =
        std::clamp(moves[static_cast<Eigen::Index>(k)], -longest_step, longest_step);
    const circuit::Part& trimmer = circuit.at(system.wiring.tracks[wanted[k].track].part);
    const double next = nearest_travel(trimmer, travels[k] + asked);
    for (std::size_t i = 0; i < size; ++i) step[i] += border.answers[k][i] * (next - travels[k]);
    travels[k] = next;
  }
  for (std::size_t k = 0; k < size; ++k) state.x[k] += step[k];
  set_travels(circuit, solver, wanted, travels);
  return true;
}

}  // namespace

double nearest_travel(const circuit::Part& trimmer, double travel) noexcept {
  constexpr double margin = 1e-7;
  const auto& details = std::get<circuit::TrimmerDetails>(trimmer.details);
  const double end = details.end_resistance_ohm > 0.0 ? 0.0 : margin;
  return std::clamp(travel, end, 1.0 - end);
}

BorderedResult iterate_with_travels(const circuit::Circuit& circuit,
                                    StageSolver& solver,
                                    const IdealCurrents& ideals,
                                    std::span<const Wanted> wanted,
                                    State& state,
                                    std::span<double> travels) {
  constexpr int most_steps = 60;
  BorderedResult result;
  Border border;
  set_travels(circuit, solver, wanted, travels);
  for (; result.steps < most_steps; ++result.steps) {
    const bool arrived =
        assemble(solver.system(), solver.numbers(), {}, Limiting::on, state, solver.work());
    if (!make_border(circuit, solver, ideals, wanted, border)) return result;
    if (arrived && is_balanced(solver.system(), solver.work()) && is_on_target(wanted, border)) {
      result.settled = true;
      return result;
    }
    if (!take_step(circuit, solver, wanted, border, state, travels)) return result;
  }
  return result;
}

std::vector<double> slopes_by_travel(const circuit::Circuit& circuit,
                                     StageSolver& solver,
                                     const IdealCurrents& ideals,
                                     std::span<const Wanted> wanted) {
  Border border;
  std::vector<double> slopes(wanted.size(), 0.0);
  if (!make_border(circuit, solver, ideals, wanted, border)) return slopes;
  for (std::size_t k = 0; k < wanted.size(); ++k) {
    slopes[k] = border.matrix(static_cast<Eigen::Index>(k), static_cast<Eigen::Index>(k));
  }
  return slopes;
}

}  // namespace idlepoint::solve
