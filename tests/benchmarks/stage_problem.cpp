#include "benchmarks/stage_problem.hpp"

#include <fmt/format.h>

#include <cstdlib>
#include <random>
#include <variant>

#include "complaints/render.hpp"
#include "language/read_stage.hpp"
#include "solve/adjust.hpp"
#include "solve/find_state.hpp"

namespace idlepoint::benchmarks {
namespace {

[[noreturn]] void give_up(const std::string& why) {
  fmt::print(stderr, "{}\n", why);
  std::exit(EXIT_FAILURE);
}

template <class T>
T required(complaints::Result<T> result) {
  if (!result) give_up(complaints::render(result.complaints()));
  return std::move(result).value();
}

/// A factor within `spread` of 1, from the generator's bits alone.
class Factors {
 public:
  Factors(double spread, std::uint64_t seed) : spread_(spread), bits_(seed) {}

  double operator()() {
    constexpr double two_to_53 = 9007199254740992.0;
    return 1.0 + spread_ * (static_cast<double>(bits_() >> 11U) / two_to_53 * 2.0 - 1.0);
  }

 private:
  double spread_;
  std::mt19937_64 bits_;
};

struct VaryLaw {
  Factors& factor;

  void operator()(devices::DiodeData& law) const {
    for (double* value : {&law.saturation_current_a, &law.series_resistance_ohm}) {
      *value *= factor();
    }
    if (law.zener_voltage_v) *law.zener_voltage_v *= factor();
  }
  void operator()(devices::BipolarData& law) const {
    for (double* value : {&law.saturation_current_a,
                          &law.gain,
                          &law.inverse_gain,
                          &law.recombination_current_a,
                          &law.cutoff_current_a,
                          &law.base_resistance_ohm,
                          &law.collector_resistance_ohm,
                          &law.emitter_resistance_ohm}) {
      *value *= factor();
    }
    if (law.early_voltage_v) *law.early_voltage_v *= factor();
    if (law.knee_current_a) *law.knee_current_a *= factor();
  }
  void operator()(devices::FetData& law) const {
    law.threshold_voltage_v *= factor();
    law.current_factor_a_per_v2 *= factor();
  }
};

void vary(circuit::Circuit& circuit, Factors& factor) {
  for (circuit::Part& part : circuit.parts) part.value *= factor();
  for (circuit::Rail& rail : circuit.rails) rail.nominal_v *= factor();
  for (circuit::Part& part : circuit.parts) {
    if (part.type) std::visit(VaryLaw{factor}, circuit.types.at(part.type->index).law);
  }
}

StageProblem compiled(circuit::CheckedCircuit stage) {
  StageProblem problem{std::move(stage), {}, {}, {}};
  solve::Description description = solve::describe(*problem.stage, {});
  problem.system = solve::compile(std::move(description.wiring));
  problem.nominal = std::move(description.numbers);
  solve::Work work;
  solve::prepare(problem.system, problem.nominal, work);
  const solve::Found found = solve::find_state(problem.system, problem.nominal, work);
  const auto* solution = std::get_if<solve::Solution>(&found);
  if (solution == nullptr) give_up(problem.stage->title + " does not settle");
  problem.solution = solution->state;
  return problem;
}

circuit::CheckedCircuit with_own_types(const circuit::CheckedCircuit& stage) {
  return stage.edited([](circuit::Circuit& circuit) {
    for (circuit::Part& part : circuit.parts) {
      if (!part.type) continue;
      circuit.types.push_back(circuit::PartType(circuit.at(*part.type)));
      part.type = circuit::TypeId{circuit.types.size() - 1};
    }
  });
}

}  // namespace

StageProblem read_problem(const std::string& file) {
  const std::string path = IDLEPOINT_SOURCE_DIR "/netlists/" + file;
  return compiled(
      required(circuit::check_circuit(required(language::read_stage_file(path)).circuit)));
}

StageProblem at_preset(const StageProblem& problem, const solve::Conditions& conditions) {
  const auto adjusted = solve::solve_adjustments(problem.stage, conditions, {});
  const auto* found = std::get_if<solve::Adjusted>(&adjusted);
  if (found == nullptr) give_up(problem.stage->title + " has no preset");
  return compiled(found->circuit);
}

std::vector<solve::Numbers> varied_numbers(const StageProblem& problem,
                                           double spread,
                                           std::size_t count,
                                           std::uint64_t seed) {
  const circuit::CheckedCircuit stage = with_own_types(problem.stage);
  Factors factor(spread, seed);
  std::vector<solve::Numbers> all;
  for (std::size_t k = 0; k < count; ++k) {
    const auto varied = stage.edited([&](circuit::Circuit& circuit) { vary(circuit, factor); });
    all.push_back(solve::describe(*varied, {}).numbers);
  }
  return all;
}

}  // namespace idlepoint::benchmarks
