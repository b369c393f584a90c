#include "benchmarks/fault_rows.hpp"

#include <fmt/format.h>

#include <memory>
#include <variant>

#include "benchmarks/klu_newton.hpp"
#include "circuit/edits.hpp"
#include "solve/find_state.hpp"

namespace idlepoint::benchmarks {
namespace {

struct Fault {
  solve::Description description;
  solve::System system;
};

/// The first faults of the drawing, compiled.
std::vector<std::unique_ptr<Fault>> faults_of(const StageProblem& problem, std::size_t most) {
  std::vector<std::unique_ptr<Fault>> faults;
  for (const circuit::Edit& edit : circuit::every_open_and_short(*problem.stage)) {
    if (faults.size() == most) break;
    const auto edited = circuit::apply(problem.stage, edit);
    const auto* stage = std::get_if<circuit::CheckedCircuit>(&edited);
    if (stage == nullptr) continue;
    auto fault = std::make_unique<Fault>();
    fault->description = solve::describe(**stage, {});
    fault->system = solve::compile(fault->description.wiring);
    faults.push_back(std::move(fault));
  }
  return faults;
}

}  // namespace

void print_fault_rows(const StageProblem& problem, const Effort& effort) {
  const auto faults = faults_of(problem, effort.faults);
  std::vector<solve::Work> works(faults.size());
  std::vector<std::unique_ptr<KluNewton>> newtons;
  for (const auto& fault : faults) {
    newtons.push_back(std::make_unique<KluNewton>(fault->system, Pivots::fresh));
  }
  std::size_t refused = 0;
  const Contender ours{"ours", [&](std::size_t k) {
                         const Fault& fault = *faults[k];
                         const solve::Numbers& numbers = fault.description.numbers;
                         solve::prepare(fault.system, numbers, works[k]);
                         const auto found = solve::find_state(fault.system, numbers, works[k]);
                         return std::holds_alternative<solve::Solution>(found);
                       }};
  const Contender klu{"KLU", [&](std::size_t k) {
                        const Fault& fault = *faults[k];
                        const solve::Numbers& numbers = fault.description.numbers;
                        solve::prepare(fault.system, numbers, works[k]);
                        solve::State state = solve::cold_start(fault.system, numbers);
                        return newtons[k]->solve(numbers, state, works[k]);
                      }};
  const Contender compiling{"compile", [&](std::size_t k) {
                              return solve::compile(faults[k]->description.wiring).unknowns > 0;
                            }};
  for (std::size_t k = 0; k < faults.size(); ++k) {
    const Fault& fault = *faults[k];
    solve::prepare(fault.system, fault.description.numbers, works[k]);
    const auto found = solve::find_state(fault.system, fault.description.numbers, works[k]);
    const auto* story = std::get_if<solve::NotSettled>(&found);
    if (story != nullptr && story->reason == solve::NotSettled::Reason::no_finite_solution) {
      ++refused;
    }
  }
  const auto timings = time_interleaved({ours, klu, compiling}, faults.size(), effort.cold_rounds);
  print_heading(fmt::format("{} single faults, each from a cold start", faults.size()));
  print_ratio("a fault, against our Newton with KLU, fresh pivots",
              timings[0].median_us,
              timings[1].median_us,
              ">= 5");
  print_number("compiling a fault's wiring, once a fault", timings[2].median_us, "us", "");
  print_remark(fmt::format("not solved: ours {} ({} of them refused by name), KLU {}; goal 0",
                           timings[0].failures,
                           refused,
                           timings[1].failures));
}

}  // namespace idlepoint::benchmarks
