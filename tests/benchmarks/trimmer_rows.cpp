#include "benchmarks/trimmer_rows.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <variant>

#include "solve/adjust.hpp"
#include "solve/bordered_newton.hpp"

namespace idlepoint::benchmarks {
namespace {

std::vector<solve::Wanted> wanted_of(const circuit::Circuit& circuit, const solve::System& system) {
  std::vector<solve::Wanted> wanted;
  for (const circuit::Adjustment& adjustment : circuit.adjustments) {
    const auto& tracks = system.wiring.tracks;
    const auto track = std::find_if(tracks.begin(), tracks.end(), [&](const solve::Track& each) {
      return each.part == adjustment.trimmer;
    });
    wanted.push_back({static_cast<std::size_t>(track - tracks.begin()),
                      circuit.at(adjustment.reading).probe,
                      adjustment.target});
  }
  return wanted;
}

}  // namespace

void print_trimmer_rows(const StageProblem& problem, const Effort& effort) {
  const circuit::Circuit& circuit = *problem.stage;
  if (circuit.adjustments.empty()) return;
  solve::StageSolver solver(circuit, {});
  solve::BorderedNewton newton(circuit, solver, solve::no_heat(circuit));
  const std::vector<solve::Wanted> wanted = wanted_of(circuit, solver.system());
  std::vector<double> travels(wanted.size());
  int joint_steps = 0;

  const Contender cold{
      "cold", [&](std::size_t) { return std::holds_alternative<solve::Solution>(solver.solve()); }};
  const Contender bordered{"bordered", [&](std::size_t) {
                             // From half way: cold there, then state and travels together.
                             std::fill(travels.begin(), travels.end(), 0.5);
                             for (const solve::Wanted& each : wanted)
                               solver.set_travel(circuit, each.track, 0.5);
                             solve::State state =
                                 solve::cold_start(solver.system(), solver.numbers());
                             solve::BorderedState at{std::move(state), {}, travels};
                             const auto result = newton.iterate(wanted, at);
                             joint_steps = result.steps;
                             return result.settled;
                           }};
  const solve::SafeEnds no_preference(wanted.size());
  const Contender whole{"whole", [&](std::size_t) {
                          const auto found =
                              solve::solve_adjustments(problem.stage, {}, no_preference);
                          return std::holds_alternative<solve::Adjusted>(found);
                        }};
  const auto timings = time_interleaved({cold, bordered, whole}, 5, effort.cold_rounds);
  const auto trimmers = static_cast<double>(wanted.size());
  print_heading(fmt::format("{} trimmer positions, in cold solves", wanted.size()));
  print_ratio("all together by bordered Newton, from a cold start",
              timings[0].median_us,
              timings[1].median_us,
              "");
  print_number("the same, a trimmer",
               timings[1].median_us / timings[0].median_us / trimmers,
               "solves",
               "<= 1.5");
  print_ratio("with the scan from end to end that rules out a second position",
              timings[0].median_us,
              timings[2].median_us,
              "");
  print_remark(fmt::format("steps of the joint iteration: {}; not found: bordered {}, whole {}",
                           joint_steps,
                           timings[1].failures,
                           timings[2].failures));
}

}  // namespace idlepoint::benchmarks
