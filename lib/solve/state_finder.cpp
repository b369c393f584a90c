#include "solve/state_finder.hpp"

#include <algorithm>

#include "solve/balance_check.hpp"
#include "solve/fold.hpp"
#include "solve/heat_path.hpp"
#include "solve/law_range.hpp"
#include "solve/stability.hpp"

namespace idlepoint::solve {

std::optional<Hottest> hottest(const circuit::Circuit& circuit,
                               const HeatModel& heat,
                               const Eigen::VectorXd& temperatures_k) {
  std::optional<Hottest> found;
  for (std::size_t j = 0; j < heat.parts.size(); ++j) {
    const circuit::Part& part = circuit.at(heat.parts[j].part);
    if (!part.type) continue;
    const double limit_k = circuit.at(*part.type).ratings.max_junction_temperature_k;
    const double excess_k = temperatures_k[static_cast<Eigen::Index>(j)] - limit_k;
    if (!found || excess_k > found->excess_k) found = {j, excess_k};
  }
  return found;
}

StateFinder::StateFinder(const circuit::Circuit& circuit, const Conditions& conditions)
    : circuit_(circuit),
      heat_(conditions.heat == HeatState::warm ? heat_model(circuit) : no_heat(circuit)),
      solver_(circuit, conditions),
      newton_(circuit, solver_, heat_) {}

void StateFinder::load(const Conditions& conditions) { solver_.load(circuit_, conditions); }

std::variant<Rest, NotSettled> StateFinder::find_cold() {
  const auto size = static_cast<Eigen::Index>(heat_.parts.size());
  Rest rest;
  rest.at.temperatures_k = Eigen::VectorXd::Constant(size, heat_.ambient_k);
  for (std::size_t j = 0; j < heat_.parts.size(); ++j) {
    solver_.set_temperature(circuit_, heat_.parts[j].part, newton_.poles()[j], heat_.ambient_k);
  }
  Found found = solver_.solve();
  if (auto* story = std::get_if<NotSettled>(&found)) return std::move(*story);
  auto& solution = std::get<Solution>(found);
  rest.at.state = std::move(solution.state);
  rest.report = std::move(solution.report);
  rest.has_other_states = solution.has_other_states;
  return rest;
}

bool StateFinder::settle(Rest& rest, const HeatModel& heat) {
  newton_.set_heat(heat);
  const BorderedResult result = newton_.iterate({}, rest.at);
  rest.report.iterations += result.steps;
  if (!result.settled) return false;
  const BalanceCheck check =
      check_balance(solver_.system(), solver_.numbers(), rest.at.state, solver_.work());
  rest.report.residual_a = check.worst_a;
  if (!check.holds) return false;
  if (find_outside_law(solver_.system(), solver_.numbers(), rest.at.state, solver_.work())) {
    return false;
  }
  if (!is_stable(solver_.system(), solver_.numbers(), rest.at.state, solver_.work())) return false;
  const auto border = newton_.border({}, rest.at);
  if (!border) return false;
  rest.power_w = BorderedNewton::powers(*border);
  rest.sink_rise_k = sink_rises(heat, rest.power_w);
  HeatModel whole = heat_;
  whole.scale = heat.scale;
  newton_.set_heat(std::move(whole));
  rest.loop_gain = newton_.loop_gain(*border);
  return true;
}

/// Follows the branch that begins at the cold state; a rung that does not settle on it is
/// shortened, and one near a fold is not meant to pass it.
bool StateFinder::raise_heat(Rest& rest) {
  constexpr double first_rung = 0.5;
  constexpr double shortest_rung = 0.02;
  constexpr double share_of_the_way = 0.7;
  double reached = 0.0;
  double rung = first_rung;
  while (reached < 1.0) {
    Rest next = rest;
    HeatModel part_way = heat_;
    part_way.scale = std::min(1.0, reached + rung);
    if (!settle(next, part_way) || next.loop_gain >= 1.0) {
      rung *= 0.5;
      if (rung < shortest_rung) return false;
      continue;
    }
    const auto fold = fold_ahead({reached, rest.loop_gain}, {part_way.scale, next.loop_gain});
    rest = std::move(next);
    reached = part_way.scale;
    rung *= 2.0;
    if (!fold || *fold > 1.0) continue;
    rung = std::min(rung, share_of_the_way * (*fold - reached));
    if (rung < shortest_rung && rest.loop_gain > gain_near_a_fold) return reached >= 1.0;
    rung = std::max(rung, shortest_rung);
  }
  return true;
}

bool StateFinder::is_cool_enough(const Rest& rest) const {
  const auto hot = hottest(circuit_, heat_, rest.at.temperatures_k);
  return !hot || hot->excess_k <= 0.0;
}

std::optional<Rest> StateFinder::find_near(const Rest& start) {
  Rest rest = start;
  rest.report = {0, "newton", 0.0};
  if (heat_.parts.empty()) {
    const Found found = solver_.solve_from(start.at.state);
    const auto* solution = std::get_if<Solution>(&found);
    if (solution == nullptr) return std::nullopt;
    rest.at.state = solution->state;
    rest.report = solution->report;
    rest.has_other_states = solution->has_other_states;
    return rest;
  }
  if (!settle(rest, heat_) || rest.loop_gain >= 1.0 || !is_cool_enough(rest)) return std::nullopt;
  return rest;
}

RestOrStory StateFinder::find(const Rest* start) {
  if (start != nullptr) {
    if (auto rest = find_near(*start)) return std::move(*rest);
  }
  auto cold = find_cold();
  if (auto* story = std::get_if<NotSettled>(&cold)) return std::move(*story);
  Rest rest = std::move(std::get<Rest>(cold));
  if (heat_.parts.empty()) return rest;
  const Rest from = rest;
  if (!raise_heat(rest) || rest.at.temperatures_k.maxCoeff() >= hottest_followed_k) {
    return follow_sinks(from);
  }
  if (is_cool_enough(rest)) return rest;
  return trouble(ThermalTrouble::Kind::too_hot, rest);
}

std::optional<Rest> StateFinder::find_quickly(const Rest* start) {
  if (start != nullptr) {
    if (auto rest = find_near(*start)) return rest;
  }
  auto cold = find_cold();
  auto* rest = std::get_if<Rest>(&cold);
  if (rest == nullptr) return std::nullopt;
  if (!heat_.parts.empty() && (!raise_heat(*rest) || !is_cool_enough(*rest))) return std::nullopt;
  return std::move(*rest);
}

double StateFinder::read(const circuit::Probe& probe, const Rest& rest) {
  const std::vector<HeatSlopes> heat = newton_.heat_slopes_at(rest.at);
  return probe_gradient(circuit_,
                        probe,
                        solver_.system(),
                        solver_.numbers(),
                        newton_.ideals(),
                        solver_.work(),
                        heat_,
                        heat,
                        rest.at.temperatures_k)
      .value;
}

ThermalTrouble StateFinder::trouble(ThermalTrouble::Kind kind, const Rest& rest) const {
  const auto hot = hottest(circuit_, heat_, rest.at.temperatures_k);
  const HeatedPart& part = heat_.parts[hot ? hot->part : 0];
  ThermalTrouble result;
  result.kind = kind;
  result.part = part.part;
  result.heatsink_k = heat_.ambient_k;
  if (part.sink) {
    result.heatsink = circuit::HeatsinkId{*part.sink};
    result.heatsink_k += rest.sink_rise_k[static_cast<Eigen::Index>(*part.sink)];
  }
  result.junction_k = rest.at.temperatures_k[static_cast<Eigen::Index>(hot ? hot->part : 0)];
  result.loop_gain = rest.loop_gain;
  return result;
}

void StateFinder::note_passing(Rest& rest, std::optional<ThermalTrouble>& passed) {
  if (passed || is_cool_enough(rest)) return;
  newton_.set_heat(heat_);
  if (const auto border = newton_.border({}, rest.at)) rest.loop_gain = newton_.loop_gain(*border);
  passed = trouble(ThermalTrouble::Kind::runaway, rest);
}

/// Each junction goes a quarter of the way to what its heat asks for, 10 K at most.
bool StateFinder::follow_junctions(Rest& rest,
                                   const HeatModel& held,
                                   std::optional<ThermalTrouble>& passed) {
  constexpr double share = 0.25;
  constexpr double longest_step_k = 10.0;
  constexpr double at_rest_k = 1e-3;
  constexpr int most_steps = 2000;
  Eigen::VectorXd& temperatures_k = rest.at.temperatures_k;
  for (int step = 0; step < most_steps; ++step) {
    for (std::size_t j = 0; j < heat_.parts.size(); ++j) {
      solver_.set_temperature(circuit_,
                              heat_.parts[j].part,
                              newton_.poles()[j],
                              temperatures_k[static_cast<Eigen::Index>(j)]);
    }
    Found found = solver_.solve_from(rest.at.state);
    auto* solution = std::get_if<Solution>(&found);
    if (solution == nullptr) return false;
    rest.at.state = std::move(solution->state);
    note_passing(rest, passed);
    if (temperatures_k.maxCoeff() > hottest_followed_k) return false;
    const auto slopes = newton_.heat_slopes_at(rest.at);
    Eigen::VectorXd power_w(temperatures_k.size());
    for (Eigen::Index j = 0; j < power_w.size(); ++j) {
      power_w[j] = slopes[static_cast<std::size_t>(j)].power_w;
    }
    const Eigen::VectorXd miss_k =
        base_temperatures(held) + rise_per_watt(held) * power_w - temperatures_k;
    if (miss_k.cwiseAbs().maxCoeff() < at_rest_k) return true;
    temperatures_k += (share * miss_k).cwiseMax(-longest_step_k).cwiseMin(longest_step_k);
  }
  return false;
}

/// Implicit Euler with steps that lengthen: only where the path leads matters here, not when.
RestOrStory StateFinder::follow_sinks(const Rest& cold) {
  constexpr double first_step_s = 1.0;
  constexpr double shortest_step_s = 1e-3;
  constexpr double at_rest_k_per_s = 1e-9;
  constexpr int most_steps = 4000;
  const Eigen::VectorXd capacity = sink_capacities(circuit_);
  Rest rest = cold;
  rest.report.strategy = "pseudo-transient";
  rest.sink_rise_k = Eigen::VectorXd::Zero(capacity.size());
  std::optional<ThermalTrouble> passed;
  constexpr int most_times = 3;
  int times_followed = 0;
  double seconds = first_step_s;
  for (int step = 0; step < most_steps; ++step) {
    Rest next = rest;
    const HeatModel model = implicit_step(heat_, capacity, rest.sink_rise_k, seconds);
    if (!settle(next, model)) {
      seconds *= 0.25;
      if (seconds >= shortest_step_s) continue;
      if (++times_followed > most_times || !follow_junctions(rest, model, passed)) break;
      seconds = first_step_s;
      continue;
    }
    const double change_k = next.sink_rise_k.size() == 0
                                ? 0.0
                                : (next.sink_rise_k - rest.sink_rise_k).cwiseAbs().maxCoeff();
    rest = std::move(next);
    note_passing(rest, passed);
    if (rest.at.temperatures_k.maxCoeff() > hottest_followed_k) break;
    if (change_k / seconds < at_rest_k_per_s) {
      return passed ? RestOrStory(trouble(ThermalTrouble::Kind::too_hot, rest)) : RestOrStory(rest);
    }
    seconds *= 1.5;
  }
  return passed ? *passed : trouble(ThermalTrouble::Kind::runaway, rest);
}

}  // namespace idlepoint::solve
