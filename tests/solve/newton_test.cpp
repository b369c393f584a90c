// Oracle: Newton's own theory (order 2 near a solution), and four ways that must meet in one state.
#include "solve/newton.hpp"

#include <cmath>
#include <functional>

#include "sample_boards.hpp"
#include "solve/continuation.hpp"

namespace idlepoint::solve {
namespace {

double farthest(const State& a, const State& b) {
  double worst = 0.0;
  for (std::size_t k = 0; k < a.x.size(); ++k) worst = std::max(worst, std::abs(a.x[k] - b.x[k]));
  return worst;
}

/// Every unknown moved, its neighbours the other way.
State beside(State state, double distance_v) {
  for (std::size_t k = 0; k + 1 < state.x.size(); ++k) {
    state.x[k] += k % 2 == 0 ? distance_v : -0.75 * distance_v;
  }
  return state;
}

/// max |x - x*| after 0, 1, 2... steps from some way beside the solution.
std::vector<double> errors_by_step(const Board& board, double distance_v) {
  StageSolver solver(board.circuit, {});
  const State end = std::get<Solution>(solver.solve()).state;
  std::vector<double> errors;
  for (int steps = 0; steps <= 8; ++steps) {
    State state = beside(end, distance_v);
    (void)iterate(solver.system(), solver.numbers(), {}, state, solver.work(), {steps});
    errors.push_back(farthest(state, end));
  }
  return errors;
}

/// log(e2/e1) / log(e1/e0) over the last three errors above rounding.
double last_clean_order(const std::vector<double>& errors) {
  constexpr double rounding_v = 1e-11;
  std::size_t last = errors.size() - 1;
  while (last > 2 && errors[last] < rounding_v) --last;
  return std::log(errors[last] / errors[last - 1]) / std::log(errors[last - 1] / errors[last - 2]);
}

using Ladder = std::function<LadderResult(const System&, const Numbers&, State&, Work&)>;

std::vector<Ladder> ladders() {
  return {plain_newton,
          lower_shunt,
          raise_rails,
          [](const System& system, const Numbers& numbers, State& state, Work& work) {
            return follow_in_time(system, numbers, 1.0, state, work);
          }};
}

}  // namespace

TEST_CASE("A junction's error goes with the square from step to step", "[solve][order]") {
  const double distance_v = GENERATE(1e-3, 2e-3, 5e-3);
  const std::vector<double> errors = errors_by_step(junction_behind_resistor(), distance_v);
  CAPTURE(distance_v, errors);
  const double order = last_clean_order(errors);
  CHECK(order > 1.7);
  CHECK(order < 2.3);
}

TEST_CASE("Half the distance leaves a quarter of the error after one step", "[solve][order]") {
  const auto which = GENERATE(range(std::size_t{0}, std::size_t{5}));
  const Board board = sample_boards()[which];
  StageSolver solver(board.circuit, {});
  const State end = std::get<Solution>(solver.solve()).state;
  const auto error_after_one = [&](double distance_v) {
    State state = beside(end, distance_v);
    (void)iterate(solver.system(), solver.numbers(), {}, state, solver.work(), {1});
    return farthest(state, end);
  };
  const double ratio = error_after_one(0.4e-3) / error_after_one(0.2e-3);
  CAPTURE(which);
  CHECK_THAT(std::log2(ratio), WithinAbs(2.0, 0.05));
}

TEST_CASE("Each of three ladders alone reaches the state that was found", "[solve][identity]") {
  const auto which = GENERATE(range(std::size_t{0}, std::size_t{5}));
  const Board board = sample_boards()[which];
  StageSolver solver(board.circuit, {});
  const State found = std::get<Solution>(solver.solve()).state;
  const auto all = ladders();
  for (std::size_t k = 1; k < all.size(); ++k) {
    State state = cold_start(solver.system(), solver.numbers());
    const LadderResult result = all[k](solver.system(), solver.numbers(), state, solver.work());
    CAPTURE(which, result.attempt.strategy, result.attempt.stopped_at);
    CHECK(result.settled);
    CHECK(farthest(state, found) < 1e-9);
  }
}

TEST_CASE("Newton alone reaches the ladders' state on stages it can start cold",
          "[solve][identity]") {
  const auto which = GENERATE(range(std::size_t{0}, std::size_t{3}));
  const Board board = sample_boards()[which];
  StageSolver solver(board.circuit, {});
  State state = cold_start(solver.system(), solver.numbers());
  const LadderResult newton = plain_newton(solver.system(), solver.numbers(), state, solver.work());
  CAPTURE(which, newton.attempt.steps);
  CHECK(newton.settled);
  State other = cold_start(solver.system(), solver.numbers());
  CHECK(raise_rails(solver.system(), solver.numbers(), other, solver.work()).settled);
  CHECK(farthest(state, other) < 1e-9);
}

TEST_CASE("Every strategy reports its own name", "[solve][identity]") {
  const Board board = feedback_pair();
  StageSolver solver(board.circuit, {});
  std::vector<std::string> names;
  for (const Ladder& ladder : ladders()) {
    State state = cold_start(solver.system(), solver.numbers());
    names.push_back(
        ladder(solver.system(), solver.numbers(), state, solver.work()).attempt.strategy);
  }
  CHECK(names == std::vector<std::string>{"newton", "conductance", "rails", "pseudo-transient"});
}

TEST_CASE("No strategy goes on for ever where nothing can settle", "[solve][identity]") {
  Board board = output_stage();
  StageSolver solver(board.circuit, {});
  Numbers hopeless = solver.numbers();
  hopeless.emf_v[0] = std::nan("");
  prepare(solver.system(), hopeless, solver.work());
  for (const Ladder& ladder : ladders()) {
    State state = cold_start(solver.system(), hopeless);
    const LadderResult result = ladder(solver.system(), hopeless, state, solver.work());
    CAPTURE(result.attempt.strategy);
    CHECK_FALSE(result.settled);
    CHECK_FALSE(result.attempt.stopped_at.empty());
    CHECK(result.attempt.steps <= 2000 + 40 + 80);
  }
}

TEST_CASE("A warm start takes a few steps where the cold one takes many", "[solve][order]") {
  Board board = output_stage();
  StageSolver solver(board.circuit, {});
  const Solution cold = std::get<Solution>(solver.solve());
  const auto id = board.part("R8");
  board.circuit.at(id).value *= 1.01;
  solver.load(board.circuit, {});
  const Solution warm = std::get<Solution>(solver.solve_from(cold.state));
  CHECK(warm.report.strategy == "newton");
  CHECK(warm.report.iterations <= 6);
  CHECK(warm.report.iterations < cold.report.iterations);
}

}  // namespace idlepoint::solve
