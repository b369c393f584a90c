#include "answers/gain_curve.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <utility>

#include "answers/driven_stage.hpp"
#include "solve/heat_model.hpp"
#include "solve/heated_poles.hpp"
#include "solve/newton.hpp"
#include "solve/stage_solver.hpp"

namespace idlepoint::answers {
namespace {

struct Point {
  double drive_v = 0.0;
  double output_v = 0.0;
  double gain = 0.0;
};

solve::Conditions while_driven(const solve::OperatingPoint& rest) {
  solve::Conditions conditions = rest.conditions();
  conditions.heat = solve::HeatState::cold;
  conditions.load_connected = true;
  return conditions;
}

class GainSweep {
 public:
  GainSweep(const circuit::CheckedCircuit& stage, const solve::OperatingPoint& rest)
      : driven_(drive_by_hand(stage, rest)),
        circuit_(*driven_.stage),
        solver_(circuit_, while_driven(rest)),
        rest_v_(rest.voltage_v(driven_.drive)) {
    if (rest.conditions().heat == solve::HeatState::warm) keep_temperatures(rest);
  }

  std::optional<GainCurve> run(double swing_v, std::size_t count) {
    const std::size_t middle = count / 2;
    const double step_v = swing_v / static_cast<double>(middle);
    std::vector<Point> points(count);
    const auto centre = go_to(rest_v_, nullptr);
    if (!centre) return std::nullopt;
    points[middle] = here(*centre);
    for (const double sign : {-1.0, 1.0}) {
      solve::State state = *centre;
      for (std::size_t k = 1; k <= middle; ++k) {
        auto next = go_to(rest_v_ + sign * step_v * static_cast<double>(k), &state);
        if (!next) return std::nullopt;
        state = std::move(*next);
        points[sign < 0.0 ? middle - k : middle + k] = here(state);
      }
    }
    return curve_of(points);
  }

 private:
  void keep_temperatures(const solve::OperatingPoint& rest) {
    const auto model = solve::heat_model(circuit_);
    const auto poles = solve::heated_poles(model, solver_.system().wiring);
    for (std::size_t j = 0; j < model.parts.size(); ++j) {
      const auto part = model.parts[j].part;
      solver_.set_temperature(circuit_, part, poles[j], rest.part(part).junction_k);
    }
  }

  std::optional<solve::State> go_to(double drive_v, const solve::State* start) {
    circuit_.at(driven_.source).value = drive_v / drive_source_ohm;
    solver_.load_part(circuit_, driven_.source);
    auto found = start == nullptr ? solver_.solve() : solver_.solve_from(*start);
    auto* solution = std::get_if<solve::Solution>(&found);
    if (solution == nullptr) return std::nullopt;
    return std::move(solution->state);
  }

  /// Requires that the solver's work holds this state.
  Point here(const solve::State& state) {
    const auto& system = solver_.system();
    auto& work = solver_.work();
    const auto drive = system.unknown_of[driven_.drive.index];
    const auto output = system.unknown_of[driven_.output.index];
    std::vector<double> moved(state.x.size(), 0.0);
    moved[static_cast<std::size_t>(drive)] = 1.0;
    solve::factor_slopes(system, work);
    const bool is_sound = solve::solve_factored(system, work, moved);
    Point point;
    point.drive_v = work.point_v[driven_.drive.index];
    point.output_v = work.point_v[driven_.output.index];
    moved.back() = 0.0;  // ground
    const double drive_moves_v = moved[static_cast<std::size_t>(drive)];
    if (is_sound && drive_moves_v != 0.0) {
      point.gain = moved[static_cast<std::size_t>(output)] / drive_moves_v;
    }
    return point;
  }

  static GainCurve curve_of(const std::vector<Point>& points) {
    GainCurve curve;
    for (const auto& point : points) {
      curve.drive_v.push_back(point.drive_v);
      curve.output_v.push_back(point.output_v);
      curve.gain.push_back(point.gain);
    }
    return curve;
  }

  DrivenStage driven_;
  circuit::Circuit circuit_;
  solve::StageSolver solver_;
  double rest_v_;
};

}  // namespace

double GainCurve::smallest() const { return *std::min_element(gain.begin(), gain.end()); }

double GainCurve::largest() const { return *std::max_element(gain.begin(), gain.end()); }

double GainCurve::mean() const {
  return std::accumulate(gain.begin(), gain.end(), 0.0) / static_cast<double>(gain.size());
}

double GainCurve::ripple() const { return (largest() - smallest()) / std::abs(mean()); }

std::optional<GainCurve> gain_curve(const circuit::CheckedCircuit& stage,
                                    const solve::OperatingPoint& rest,
                                    double swing_v,
                                    std::size_t points) {
  return GainSweep(stage, rest).run(swing_v, points);
}

}  // namespace idlepoint::answers
