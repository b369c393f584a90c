#include "benchmarks/sampling_rows.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cstdlib>
#include <memory>
#include <numeric>
#include <variant>

#include "benchmarks/child_cost.hpp"
#include "benchmarks/contenders.hpp"
#include "benchmarks/lane_equations.hpp"
#include "benchmarks/lane_floor.hpp"
#include "solve/batch.hpp"
#include "solve/draws.hpp"
#include "solve/lane_solver.hpp"

namespace idlepoint::benchmarks {
namespace {

constexpr std::size_t lane_samples = 256;  ///< Solved in lanes at a time, as in solve/batch.

solve::Batch batch_of(const StageProblem& problem, const solve::Conditions& conditions) {
  const circuit::Circuit& circuit = *problem.stage;
  std::vector<circuit::Probe> probes;
  for (const circuit::Adjustment& adjustment : circuit.adjustments) {
    probes.push_back(circuit.at(adjustment.reading).probe);
  }
  auto made = solve::Batch::make(problem.stage, conditions, circuit::uncertainty(circuit), probes);
  auto* batch = std::get_if<solve::Batch>(&made);
  if (batch == nullptr || !batch->plan()) {
    fmt::print(stderr, "{} cannot be solved in lanes\n", circuit.title);
    std::exit(EXIT_FAILURE);
  }
  return std::move(*batch);
}

/// The first samples of a batch as other solvers take them.
struct Variants {
  std::vector<std::vector<double>> u;  ///< [variants][draws]
  std::vector<circuit::CheckedCircuit> circuits;
  std::vector<solve::Numbers> numbers;
};

Variants variants_of(const StageProblem& problem, const solve::LanePlan& plan, std::size_t count) {
  Variants all;
  const circuit::Uncertainty& uncertainty = plan.uncertainty;
  for (std::size_t sample = 0; sample < count; ++sample) {
    std::vector<double> u;
    for (std::size_t k = 0; k < uncertainty.draws.size(); ++k) {
      u.push_back(solve::draw(1, sample, k));
    }
    all.circuits.push_back(circuit::with_parameters(
        problem.stage, uncertainty.parameters, circuit::values_at(*problem.stage, uncertainty, u)));
    all.numbers.push_back(solve::describe(*all.circuits.back(), {}).numbers);
    all.u.push_back(std::move(u));
  }
  return all;
}

std::string name_of(const solve::LaneKernel& kernel) {
  return fmt::format("{}, {} lane{}", kernel.name, kernel.lanes, kernel.lanes == 1 ? "" : "s");
}

/// All lane samples in the first of the pieces, nothing in the others.
Contender lanes(const solve::LanePlan& plan, const solve::LaneKernel& kernel) {
  auto values = std::make_shared<std::vector<double>>(lane_samples * plan.probes.size());
  auto fates = std::make_shared<std::vector<solve::Fate>>(lane_samples);
  return {name_of(kernel), [&plan, &kernel, values, fates](std::size_t k) {
            if (k == 0) kernel.run(plan, {1, 0, *values, *fates});
            return true;
          }};
}

/// The scalar solver's warm state from the nominal one: its border, all finders made beforehand.
Contender bordered(const StageProblem& problem,
                   const Variants& variants,
                   const solve::Conditions& conditions,
                   StepCounts& steps) {
  solve::StateFinder nominal(*problem.stage, conditions);
  const auto rest = std::make_shared<solve::RestOrStory>(nominal.find());
  auto finders = std::make_shared<std::vector<std::unique_ptr<solve::StateFinder>>>();
  for (const circuit::CheckedCircuit& circuit : variants.circuits) {
    finders->push_back(std::make_unique<solve::StateFinder>(*circuit, conditions));
  }
  return {"bordered", [rest, finders, &steps](std::size_t k) {
            solve::BorderedState at = std::get<solve::Rest>(*rest).at;
            const auto result = (*finders)[k]->newton().iterate({}, at);
            steps.push_back(result.steps);
            return result.settled;
          }};
}

Contender klu_lane(const solve::LanePlan& plan, const Variants& variants, StepCounts& steps) {
  auto newton = std::make_shared<KluLaneNewton>(plan);
  return {"KLU", [newton, &variants, &steps](std::size_t k) {
            const bool solved = newton->solve(variants.u[k]);
            steps.push_back(newton->steps());
            return solved;
          }};
}

struct LaneKinsol {
  LaneEquations equations;
  std::unique_ptr<KinsolSolver> solver;
  std::vector<double> x;

  LaneKinsol(const solve::LanePlan& plan, const KinsolSettings& settings)
      : equations(plan), x(plan.x) {
    const std::vector<double> u(plan.uncertainty.draws.size(), 0.0);
    equations.take(u);
    equations.evaluate(x);
    solver = std::make_unique<KinsolSolver>(equations, settings, equations.tolerances());
  }
};

Contender lane_kinsol(const solve::LanePlan& plan,
                      const Variants& variants,
                      const KinsolSettings& settings,
                      StepCounts& steps) {
  auto kinsol = std::make_shared<LaneKinsol>(plan, settings);
  return {"KINSOL", [kinsol, &plan, &variants, &steps](std::size_t k) {
            kinsol->equations.take(variants.u[k]);
            kinsol->x = plan.x;
            const bool solved = kinsol->solver->solve(kinsol->x);
            steps.push_back(static_cast<double>(kinsol->solver->steps()));
            return solved && kinsol->equations.balance_holds(kinsol->x);
          }};
}

struct Rivals {
  std::vector<std::string> names;
  std::vector<std::string> goals;
  std::vector<Contender> contenders;
  std::vector<std::unique_ptr<StepCounts>> steps;

  StepCounts& add(std::string name, std::string goal) {
    names.push_back(std::move(name));
    goals.push_back(std::move(goal));
    return *steps.emplace_back(std::make_unique<StepCounts>());
  }
};

Rivals cold_rivals(const StageProblem& problem, const Variants& variants) {
  Rivals all;
  const auto add_kinsol = [&](Matrix matrix, std::string name, std::string goal) {
    const KinsolSettings best = best_settings(problem, variants.numbers, matrix, Start::warm);
    StepCounts& steps = all.add(std::move(name), std::move(goal));
    all.contenders.push_back(kinsol(problem, variants.numbers, Start::warm, best, steps));
  };
  StepCounts& scalar = all.add("our scalar solver", "");
  all.contenders.push_back(ours(problem, variants.numbers, Start::warm, scalar));
  StepCounts& refactored = all.add("our Newton with KLU refactor", ">= 7.5");
  all.contenders.push_back(klu(problem, variants.numbers, Start::warm, Pivots::kept, refactored));
  add_kinsol(Matrix::klu, "KINSOL + KLU", ">= 25");
  add_kinsol(Matrix::dense, "KINSOL, dense", "");
  return all;
}

Rivals warm_rivals(const StageProblem& problem,
                   const solve::LanePlan& plan,
                   const Variants& variants,
                   const solve::Conditions& conditions) {
  Rivals all;
  const auto add_kinsol = [&](Matrix matrix, std::string name, std::string goal) {
    // Exact Newton, as is best for it in the cold state too; a line search loses itself in watts.
    const KinsolSettings best{.matrix = matrix};
    StepCounts& steps = all.add(std::move(name), std::move(goal));
    all.contenders.push_back(lane_kinsol(plan, variants, best, steps));
  };
  StepCounts& scalar = all.add("our scalar solver (bordered Newton)", "");
  all.contenders.push_back(bordered(problem, variants, conditions, scalar));
  StepCounts& refactored = all.add("our Newton with KLU refactor", ">= 7.5");
  all.contenders.push_back(klu_lane(plan, variants, refactored));
  add_kinsol(Matrix::klu, "KINSOL + KLU", ">= 25");
  add_kinsol(Matrix::dense, "KINSOL, dense", "");
  return all;
}

/// Newton steps of the samples that settle at once, each for itself and as the slowest of `width`.
struct MeanSteps {
  double alone = 0.0;
  double slowest = 0.0;
  std::size_t lost = 0;
};

MeanSteps mean_steps(const solve::LanePlan& plan, const Variants& variants, std::size_t width) {
  solve::LaneSolver<double> solver(plan);
  MeanSteps mean;
  int slowest = 0;
  for (std::size_t k = 0; k < variants.u.size(); ++k) {
    solver.solve(variants.u[k]);
    slowest = std::max(slowest, solver.steps());
    if ((k + 1) % width == 0) mean.slowest += std::exchange(slowest, 0);
    if (solver.fate() == solve::lane_failed) {
      ++mean.lost;
    } else {
      mean.alone += solver.steps();
    }
  }
  mean.alone /= static_cast<double>(std::max<std::size_t>(variants.u.size() - mean.lost, 1));
  mean.slowest /= static_cast<double>(variants.u.size() / width);
  return mean;
}

void print_steps(const Rivals& rivals, const std::vector<Timing>& timings, std::size_t first) {
  for (std::size_t k = 0; k < rivals.names.size(); ++k) {
    const StepCounts& steps = *rivals.steps[k];
    const double sum = std::accumulate(steps.begin(), steps.end(), 0.0);
    print_remark(fmt::format("{}: {:.1f} steps, {} lost",
                             rivals.names[k],
                             sum / static_cast<double>(std::max<std::size_t>(steps.size(), 1)),
                             timings[first + k].failures));
  }
}

/// On a single core: every kernel, every other solver, the floor.
void print_one_core(const solve::LanePlan& plan,
                    const Variants& variants,
                    const Rivals& rivals,
                    std::size_t rounds) {
  const std::size_t count = variants.u.size();
  const solve::LaneKernel& best = solve::best_kernel(plan);
  const MeanSteps steps = mean_steps(plan, variants, best.lanes);
  constexpr std::size_t floor_steps = 500;
  std::vector<Contender> contenders{lanes(plan, best)};
  if (const LaneFloor* floor = floor_of(best.name, best.lanes)) {
    contenders.push_back({"floor", [floor, &plan](std::size_t k) {
                            return k != 0 || floor->run(plan, floor_steps) > 0.0;
                          }});
  }
  const std::size_t first_kernel = contenders.size();
  for (const solve::LaneKernel& kernel : solve::lane_kernels()) {
    if (kernel.is_supported()) contenders.push_back(lanes(plan, kernel));
  }
  const std::size_t first_rival = contenders.size();
  contenders.insert(contenders.end(), rivals.contenders.begin(), rivals.contenders.end());
  const auto timings = time_interleaved(contenders, count, rounds);
  const auto a_sample = [&](std::size_t k) {
    return timings[k].median_us * static_cast<double>(count) / static_cast<double>(lane_samples);
  };
  const double ours_us = a_sample(0);
  for (std::size_t k = 0; k < rivals.names.size(); ++k) {
    print_ratio(
        "against " + rivals.names[k], ours_us, timings[first_rival + k].median_us, rivals.goals[k]);
  }
  if (first_kernel > 1) {
    const double pack_us = timings[1].median_us * static_cast<double>(count) /
                           static_cast<double>(floor_steps * best.lanes);
    const double floor_us = pack_us * steps.alone;
    print_number("ours in times the floor: laws and elimination alone",
                 ours_us / floor_us,
                 "times",
                 "<= 1.3");
  }
  for (std::size_t k = first_kernel; k < first_rival; ++k) {
    print_number("a sample, " + contenders[k].name, a_sample(k), "us", "");
  }
  print_remark(fmt::format(
      "lanes: {:.1f} steps a sample, {:.1f} the slowest of {}; {} lost at the first attempt",
      steps.alone,
      steps.slowest,
      best.lanes,
      steps.lost));
  print_steps(rivals, timings, first_rival);
}

double wall_ms(const solve::Batch& batch, std::size_t samples, std::size_t threads) {
  const auto before = std::chrono::steady_clock::now();
  solve::BatchOptions options;
  options.samples = samples;
  options.threads = threads;
  static_cast<void>(batch.run(options));
  return std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - before)
      .count();
}

/// By the clock on the wall, since two threads share the work: other work on the machine counts.
void print_two_cores(const solve::Batch& batch, std::size_t samples, std::size_t rounds) {
  std::vector<double> one;
  std::vector<double> two;
  for (std::size_t round = 0; round < rounds; ++round) {
    one.push_back(wall_ms(batch, samples, 1));
    two.push_back(wall_ms(batch, samples, 2));
  }
  const double best_one = *std::min_element(one.begin(), one.end());
  const double best_two = *std::min_element(two.begin(), two.end());
  print_number(fmt::format("{} samples, random numbers included, two cores", samples),
               median(two),
               "ms",
               samples == 100'000 ? "<= 100" : "");
  print_number("the same, the best of the rounds", best_two, "ms", "");
  print_number("two cores against one", median(one) / median(two), "times", ">= 1.85");
  print_number("the same, the best of the rounds", best_one / best_two, "times", "");
}

}  // namespace

void print_sampling_rows(const StageProblem& drawn, solve::HeatState heat, const Effort& effort) {
  const solve::Conditions conditions{.heat = heat};
  const bool is_warm = heat == solve::HeatState::warm;
  const StageProblem problem = at_preset(drawn, conditions);
  const solve::Batch batch = batch_of(problem, conditions);
  const solve::LanePlan& plan = *batch.plan();
  const Variants variants = variants_of(problem, plan, effort.sampled_variants);
  const Rivals rivals =
      is_warm ? warm_rivals(problem, plan, variants, conditions) : cold_rivals(problem, variants);
  print_heading(fmt::format("Sampling, {} state, {} unknowns, {} draws",
                            is_warm ? "warm" : "cold",
                            plan.rows,
                            plan.uncertainty.draws.size()));
  print_one_core(plan, variants, rivals, effort.sampling_rounds);
  print_two_cores(batch, effort.samples_at_once, std::min<std::size_t>(effort.sampling_rounds, 5));
}

bool hold_samples(const std::string& file, std::size_t samples) {
  const StageProblem problem = at_preset(read_problem(file), {});
  solve::BatchOptions options;
  options.samples = samples;
  return batch_of(problem, {}).run(options).size() == samples;
}

void print_memory_row(const std::string& file, const Effort& effort) {
  ChildCost cost;
  add_runs(fmt::format("{} --hold {} --stage {}", IDLEPOINT_BENCHMARK, effort.samples_held, file),
           1,
           cost);
  fmt::print("\nMemory of {} samples, {}\n", effort.samples_held, file);
  print_number("peak of a process that holds what `adjust` reads in each",
               cost.peak_mib,
               "MiB",
               effort.samples_held == 1'000'000 ? "<= 32" : "");
  if (!cost.all_succeeded) print_remark("THE CHILD FAILED: the number above means nothing");
}

}  // namespace idlepoint::benchmarks
