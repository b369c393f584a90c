#include "solve/bordered_newton.hpp"

#include <Eigen/Eigenvalues>
#include <Eigen/LU>
#include <algorithm>
#include <cmath>

#include "solve/newton.hpp"

namespace idlepoint::solve {
namespace {

using RowIndex = Eigen::Index;

std::size_t at_index(RowIndex index) { return static_cast<std::size_t>(index); }

}  // namespace

double dot(const std::vector<double>& a, const std::vector<double>& b, std::size_t size) {
  double sum = 0.0;
  for (std::size_t k = 0; k < size; ++k) sum += a[k] * b[k];
  return sum;
}

BorderedNewton::BorderedNewton(const circuit::Circuit& circuit, StageSolver& solver, HeatModel heat)
    : circuit_(circuit),
      solver_(solver),
      heat_(std::move(heat)),
      poles_(heated_poles(heat_, solver.system().wiring)),
      ideals_(solver.system()) {}

void BorderedNewton::apply(std::span<const Wanted> wanted, const BorderedState& at) {
  for (std::size_t j = 0; j < heat_.parts.size(); ++j) {
    solver_.set_temperature(
        circuit_, heat_.parts[j].part, poles_[j], at.temperatures_k[static_cast<RowIndex>(j)]);
  }
  for (std::size_t k = 0; k < wanted.size(); ++k) {
    solver_.set_travel(circuit_, wanted[k].track, at.travels[k]);
  }
}

bool BorderedNewton::add_answer(std::vector<double> balance_by, Border& border) {
  for (double& entry : balance_by) entry = -entry;
  if (!solve_factored(solver_.system(), solver_.work(), balance_by)) return false;
  border.answers.push_back(std::move(balance_by));
  return true;
}

std::vector<HeatSlopes> BorderedNewton::heat_slopes_at(const BorderedState& at) {
  std::vector<HeatSlopes> slopes;
  for (std::size_t j = 0; j < heat_.parts.size(); ++j) {
    slopes.push_back(heat_slopes(circuit_,
                                 heat_.parts[j].part,
                                 poles_[j],
                                 at.temperatures_k[static_cast<RowIndex>(j)],
                                 solver_.system(),
                                 solver_.numbers(),
                                 at.state,
                                 solver_.work()));
  }
  return slopes;
}

std::optional<Border> BorderedNewton::border(std::span<const Wanted> wanted,
                                             const BorderedState& at) {
  const System& system = solver_.system();
  const Work& work = solver_.work();
  const auto size = static_cast<std::size_t>(system.unknowns);
  Border border;
  factor_slopes(system, solver_.work());
  border.heat = heat_slopes_at(at);
  for (const HeatSlopes& heat : border.heat) {
    if (!add_answer(heat.balance_by_k, border)) return std::nullopt;
  }
  for (const Wanted& one : wanted) {
    std::vector<double> balance_by(size + 1);
    balance_by_travel(circuit_, system, solver_.numbers(), one.track, work, balance_by);
    if (!add_answer(std::move(balance_by), border)) return std::nullopt;
    border.readings.push_back(probe_gradient(circuit_,
                                             one.probe,
                                             system,
                                             solver_.numbers(),
                                             ideals_,
                                             work,
                                             heat_,
                                             border.heat,
                                             at.temperatures_k));
  }
  const auto heated = static_cast<RowIndex>(heat_.parts.size());
  const auto columns = static_cast<RowIndex>(border.answers.size());
  border.power_by.resize(heated, columns);
  border.reading_by.resize(columns - heated, columns);
  for (RowIndex m = 0; m < columns; ++m) {
    const std::vector<double>& answer = border.answers[at_index(m)];
    for (RowIndex i = 0; i < heated; ++i) {
      const HeatSlopes& heat = border.heat[at_index(i)];
      border.power_by(i, m) =
          dot(heat.by_unknown, answer, size) + (i == m ? heat.power_w_per_k : 0.0);
    }
    for (RowIndex j = 0; j < columns - heated; ++j) {
      const ProbeGradient& reading = border.readings[at_index(j)];
      const double direct = m < heated ? reading.by_temperature[at_index(m)]
                                       : reading.by_travel[wanted[at_index(m - heated)].track];
      border.reading_by(j, m) = dot(reading.by_unknown, answer, size) + direct;
    }
  }
  return border;
}

Eigen::VectorXd BorderedNewton::powers(const Border& border) {
  Eigen::VectorXd power_w(static_cast<RowIndex>(border.heat.size()));
  for (RowIndex j = 0; j < power_w.size(); ++j) power_w[j] = border.heat[at_index(j)].power_w;
  return power_w;
}

Eigen::MatrixXd BorderedNewton::matrix(const Border& border) const {
  const auto heated = static_cast<RowIndex>(heat_.parts.size());
  const auto columns = static_cast<RowIndex>(border.answers.size());
  Eigen::MatrixXd matrix(columns, columns);
  matrix.topRows(heated) = -rise_per_watt(heat_) * border.power_by;
  matrix.topLeftCorner(heated, heated).diagonal().array() += 1.0;
  matrix.bottomRows(columns - heated) = border.reading_by;
  return matrix;
}

bool BorderedNewton::is_settled(std::span<const Wanted> wanted,
                                const Border& border,
                                const BorderedState& at) const {
  constexpr double largest_miss_k = 1e-9;
  if (!is_balanced(solver_.system(), solver_.work())) return false;
  for (std::size_t k = 0; k < wanted.size(); ++k) {
    const double miss = std::abs(border.readings[k].value - wanted[k].target);
    if (!(miss <= 1e-9 * std::abs(wanted[k].target) + 1e-12)) return false;
  }
  const Eigen::VectorXd miss_k =
      at.temperatures_k - base_temperatures(heat_) - rise_per_watt(heat_) * powers(border);
  return miss_k.size() == 0 || miss_k.cwiseAbs().maxCoeff() <= largest_miss_k;
}

bool BorderedNewton::take_step(std::span<const Wanted> wanted,
                               const Border& border,
                               BorderedState& at) {
  constexpr double longest_travel = 0.2;
  constexpr double longest_rise_k = 25.0;
  const System& system = solver_.system();
  const auto size = static_cast<std::size_t>(system.unknowns);
  std::vector<double> step(size + 1);
  for (std::size_t k = 0; k < size; ++k) step[k] = -solver_.work().balance_a[k];
  if (!solve_factored(system, solver_.work(), step)) return false;

  const auto heated = static_cast<RowIndex>(heat_.parts.size());
  const auto columns = static_cast<RowIndex>(border.answers.size());
  const Eigen::MatrixXd rise = rise_per_watt(heat_);
  Eigen::VectorXd power_w = powers(border);
  for (RowIndex i = 0; i < heated; ++i) {
    power_w[i] += dot(border.heat[at_index(i)].by_unknown, step, size);
  }
  Eigen::VectorXd right(columns);
  right.head(heated) = base_temperatures(heat_) + rise * power_w - at.temperatures_k;
  for (std::size_t k = 0; k < wanted.size(); ++k) {
    const ProbeGradient& reading = border.readings[k];
    right[heated + static_cast<RowIndex>(k)] =
        wanted[k].target - reading.value - dot(reading.by_unknown, step, size);
  }
  Eigen::VectorXd move = matrix(border).fullPivLu().solve(right);
  if (!move.allFinite()) return false;
  for (RowIndex m = 0; m < columns; ++m) {
    if (m < heated) {
      move[m] = std::clamp(move[m], -longest_rise_k, longest_rise_k);
      at.temperatures_k[m] += move[m];
    } else {
      const std::size_t k = at_index(m - heated);
      const circuit::Part& trimmer = circuit_.at(system.wiring.tracks[wanted[k].track].part);
      const double asked = std::clamp(move[m], -longest_travel, longest_travel);
      const double next = nearest_travel(trimmer, at.travels[k] + asked);
      move[m] = next - at.travels[k];
      at.travels[k] = next;
    }
    for (std::size_t i = 0; i < size; ++i) step[i] += border.answers[at_index(m)][i] * move[m];
  }
  for (std::size_t k = 0; k < size; ++k) at.state.x[k] += step[k];
  return true;
}

BorderedResult BorderedNewton::iterate(std::span<const Wanted> wanted, BorderedState& at) {
  constexpr int most_steps = 20;
  BorderedResult result;
  for (; result.steps < most_steps; ++result.steps) {
    apply(wanted, at);
    const bool arrived =
        assemble(solver_.system(), solver_.numbers(), {}, Limiting::on, at.state, solver_.work());
    const std::optional<Border> here = border(wanted, at);
    if (!here) return result;
    result.settled = arrived && is_settled(wanted, *here, at);
    if (result.settled || !take_step(wanted, *here, at)) return result;
  }
  return result;
}

std::vector<double> BorderedNewton::slopes_by_travel(const Border& border) const {
  const auto heated = static_cast<RowIndex>(heat_.parts.size());
  const auto wanted = border.reading_by.rows();
  std::vector<double> slopes;
  const Eigen::MatrixXd rise = rise_per_watt(heat_);
  const Eigen::MatrixXd heat_matrix = matrix(border).topLeftCorner(heated, heated);
  for (RowIndex k = 0; k < wanted; ++k) {
    double slope = border.reading_by(k, heated + k);
    if (heated > 0) {
      const Eigen::VectorXd follows =
          heat_matrix.fullPivLu().solve(rise * border.power_by.col(heated + k));
      slope += border.reading_by.row(k).head(heated).dot(follows);
    }
    slopes.push_back(slope);
  }
  return slopes;
}

double BorderedNewton::loop_gain(const Border& border) const {
  const auto heated = static_cast<RowIndex>(heat_.parts.size());
  if (heated == 0) return 0.0;
  const Eigen::MatrixXd loop = rise_per_watt(heat_) * border.power_by.leftCols(heated);
  return std::max(0.0, loop.eigenvalues().real().maxCoeff());
}

double nearest_travel(const circuit::Part& trimmer, double travel) noexcept {
  constexpr double margin = 1e-7;
  const auto& details = std::get<circuit::TrimmerDetails>(trimmer.details);
  const double end = details.end_resistance_ohm > 0.0 ? 0.0 : margin;
  return std::clamp(travel, end, 1.0 - end);
}

}  // namespace idlepoint::solve
