#include "solve/continuation.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace idlepoint::solve {
namespace {

constexpr int most_total_steps = 2000;
constexpr NewtonOptions rung_options{40};

/// Climbs from `from` to `to` in a parameter, remembering the last state that settled; a rung that
/// does not settle is halved, one that does is lengthened.
struct Climb {
  double from;
  double to;
  double first_rung;
  double shortest_rung;
};

/// `solve_at(parameter)` runs Newton in place and says how it went.
template <class SolveAt>
bool climb(const Climb& way, State& state, Attempt& attempt, double& reached, SolveAt solve_at) {
  State last = state;
  double rung = way.first_rung;
  reached = way.from;
  while (reached != way.to) {
    const double next =
        way.to > way.from ? std::min(way.to, reached + rung) : std::max(way.to, reached - rung);
    const NewtonResult result = solve_at(next);
    attempt.steps += result.steps;
    if (result.settled) {
      reached = next;
      last = state;
      rung *= result.steps < 12 ? 2.0 : 1.0;
    } else {
      state = last;
      rung *= 0.25;
    }
    if (rung < way.shortest_rung || attempt.steps > most_total_steps) return false;
  }
  return true;
}

}  // namespace

LadderResult plain_newton(const System& system, const Numbers& numbers, State& state, Work& work) {
  const NewtonResult newton = iterate(system, numbers, {}, state, work);
  LadderResult result{newton.settled, {"newton", newton.steps, {}}};
  if (!newton.settled) {
    result.attempt.stopped_at = newton.singular ? "equations without a unique answer"
                                                : fmt::format("after {} steps", newton.steps);
  }
  return result;
}

LadderResult lower_shunt(const System& system, const Numbers& numbers, State& state, Work& work) {
  constexpr double first_decade = 0.0;   // 1 S
  constexpr double last_decade = -13.0;  // below the board's own insulation
  state = cold_start(system, numbers);
  LadderResult result{false, {"conductance", 0, {}}};
  double reached = first_decade;
  const auto solve_at = [&](double decade) {
    Drive drive;
    drive.shunt_s = std::pow(10.0, decade);
    return iterate(system, numbers, drive, state, work, rung_options);
  };
  const NewtonResult first = solve_at(first_decade);
  result.attempt.steps += first.steps;
  const bool lowered =
      first.settled &&
      climb({first_decade, last_decade, 1.0, 1e-3}, state, result.attempt, reached, solve_at);
  if (lowered) {
    const NewtonResult last = iterate(system, numbers, {}, state, work);
    result.attempt.steps += last.steps;
    result.settled = last.settled;
  }
  if (!result.settled) {
    result.attempt.stopped_at =
        fmt::format("every point held to ground by {:.0e} ohm", std::pow(10.0, -reached));
  }
  return result;
}

LadderResult raise_rails(const System& system, const Numbers& numbers, State& state, Work& work) {
  state = cold_start(system, numbers);
  LadderResult result{false, {"rails", 0, {}}};
  double reached = 0.0;
  const auto solve_at = [&](double fraction) {
    Drive drive;
    drive.sources = fraction;
    return iterate(system, numbers, drive, state, work, rung_options);
  };
  result.settled = climb({0.0, 1.0, 0.05, 1e-6}, state, result.attempt, reached, solve_at);
  if (!result.settled) {
    result.attempt.stopped_at = fmt::format("rails at {:.1f} %", 100.0 * reached);
  }
  return result;
}

LadderResult follow_in_time(const System& system,
                            const Numbers& numbers,
                            double first_inertia_s,
                            State& state,
                            Work& work) {
  constexpr double smallest_inertia_s = 1e-12;
  constexpr double largest_inertia_s = 1e6;
  LadderResult result{false, {"pseudo-transient", 0, {}}};
  Attempt& attempt = result.attempt;
  State last = state;
  std::vector<double> anchor = state.x;
  double inertia_s = first_inertia_s;
  while (inertia_s > smallest_inertia_s && inertia_s < largest_inertia_s &&
         attempt.steps < most_total_steps) {
    Drive drive;
    drive.inertia_s = inertia_s;
    drive.anchor = anchor;
    const NewtonResult newton = iterate(system, numbers, drive, state, work, rung_options);
    attempt.steps += newton.steps;
    if (newton.settled) {
      last = state;
      std::copy(state.x.begin(), state.x.end(), anchor.begin());
      inertia_s *= newton.steps < 8 ? 0.5 : 0.9;
    } else {
      state = last;
      inertia_s *= 8.0;
    }
  }
  if (inertia_s <= smallest_inertia_s) {
    const NewtonResult newton = iterate(system, numbers, {}, state, work);
    attempt.steps += newton.steps;
    result.settled = newton.settled;
  }
  if (!result.settled) attempt.stopped_at = fmt::format("after {} steps in time", attempt.steps);
  return result;
}

}  // namespace idlepoint::solve
