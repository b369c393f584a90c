#include "solve/adjoint.hpp"

#include <Eigen/LU>

#include "solve/newton.hpp"

namespace idlepoint::solve {
namespace {

using RowIndex = Eigen::Index;

}  // namespace

Adjoint::Adjoint(StageSolver& solver,
                 BorderedNewton& newton,
                 const Border& border,
                 const Quantity& quantity)
    : solver_(solver), newton_(newton), border_(border), quantity_(quantity) {
  is_sound_ = solve_multipliers();
}

/// The border first, voltages following; then one transposed solve for the balances.
bool Adjoint::solve_multipliers() {
  const System& system = solver_.system();
  const auto size = at(system.unknowns);
  const std::size_t heated = border_.heat.size();
  const auto columns = static_cast<RowIndex>(quantity_.columns);
  const ProbeGradient* reading = quantity_.reading;

  Eigen::VectorXd right = Eigen::VectorXd::Zero(columns);
  for (RowIndex m = 0; m < columns; ++m) {
    const auto column = static_cast<std::size_t>(m);
    if (reading == nullptr) {
      right[m] = column == heated + quantity_.travel ? 1.0 : 0.0;
    } else {
      right[m] = dot(reading->by_unknown, border_.answers[column], size);
      if (column < heated) right[m] += reading->by_temperature[column];
    }
  }
  Eigen::VectorXd multipliers = right;
  if (columns > 0) {
    const Eigen::MatrixXd matrix =
        newton_.matrix(border_).topLeftCorner(columns, columns).transpose();
    const auto factors = matrix.fullPivLu();
    if (!factors.isInvertible()) return false;
    multipliers = factors.solve(right);
  }
  heat_.assign(multipliers.data(), multipliers.data() + heated);
  wanted_.assign(multipliers.data() + heated, multipliers.data() + columns);

  by_current_.by_point.assign(at(system.wiring.points), 0.0);
  by_point_v_.assign(at(system.wiring.points), 0.0);
  by_power_.assign(heated, 0.0);
  const Eigen::MatrixXd rise = rise_per_watt(newton_.heat());
  const Eigen::VectorXd power = rise.transpose() * multipliers.head(static_cast<RowIndex>(heated));
  std::vector<double> balance(size + 1, 0.0);
  for (std::size_t j = 0; j < heated; ++j) {
    by_power_[j] = power[static_cast<RowIndex>(j)];
    for (std::size_t k = 0; k < size; ++k) {
      balance[k] += by_power_[j] * border_.heat[j].by_unknown[k];
    }
  }
  for_each_reading([&](const ProbeGradient* one, double factor) {
    if (one == nullptr) return;
    add(*one, factor);
    for (std::size_t k = 0; k < size; ++k) balance[k] += factor * one->by_unknown[k];
  });
  if (!solve_factored(system, solver_.work(), balance, Side::transposed)) return false;
  for (std::size_t point = 0; point < by_current_.by_point.size(); ++point) {
    const Index row = system.unknown_of[point];
    if (row < system.unknowns) by_current_.by_point[point] -= balance[at(row)];
  }
  return true;
}

void Adjoint::add(const ProbeGradient& reading, double factor) {
  for (std::size_t k = 0; k < by_current_.by_point.size(); ++k) {
    by_current_.by_point[k] += factor * reading.by_current.by_point[k];
    by_point_v_[k] += factor * reading.by_point_v[k];
  }
  for (const auto& [owner, weight] : reading.by_current.leads) {
    by_current_.leads.emplace_back(owner, factor * weight);
  }
  for (std::size_t j = 0; j < by_power_.size(); ++j) {
    by_power_[j] += factor * reading.by_power[j];
  }
}

/// A current that also heats its part weighs by the volts of its point, too.
double Adjoint::weight(const Owner& owner, Index point) const {
  double weight = by_current_.at(owner, point);
  if (!owner.part || by_power_.empty()) return weight;
  const std::size_t heated = newton_.heat().part_of[owner.part->index];
  if (heated < by_power_.size()) weight += by_power_[heated] * solver_.work().point_v[at(point)];
  return weight;
}

double Adjoint::sum(const std::vector<TerminalSlope>& slopes) const {
  double sum = 0.0;
  for (const TerminalSlope& terminal : slopes) {
    sum += weight(terminal.owner, terminal.point) * terminal.a;
  }
  return sum;
}

std::vector<double> Adjoint::by_point_v() const {
  std::vector<double> result = by_point_v_;
  for_each_terminal(solver_.system(),
                    solver_.numbers(),
                    solver_.work(),
                    [&](const Owner& owner,
                        Index point,
                        double current_a,
                        const std::array<Index, 3>& points,
                        const std::array<double, 3>& slopes) {
                      const double w = weight(owner, point);
                      for (std::size_t k = 0; k < 3; ++k) result[at(points[k])] += w * slopes[k];
                      if (!owner.part || by_power_.empty()) return;
                      const std::size_t heated = newton_.heat().part_of[owner.part->index];
                      if (heated < by_power_.size())
                        result[at(point)] += by_power_[heated] * current_a;
                    });
  return result;
}

}  // namespace idlepoint::solve
