// Oracle: central differences, of the reading by each unknown and travel, and of whole solves with
// a microampere fed into one node.
#include "solve/probe_gradient.hpp"

#include "sample_boards.hpp"
#include "solve/newton.hpp"

namespace idlepoint::solve {
namespace {

using circuit::AmpsThrough;
using circuit::Probe;
using circuit::RailId;
using circuit::WattsIn;

/// An output stage with a link, a hold, and a damaged transistor whose inner link counts as its.
Board probed_stage() {
  Board board = output_stage();
  auto& damage = board.circuit.at(board.part("Q5")).damage;
  damage.leaks.push_back({0, 2, 22e3});
  board.link("L2", "out", "o3").link("L3", "o2", "o3").resistor("RL", "o3", "gnd", 470.0);
  board.circuit.at(board.part("Q3")).damage.shorts.push_back({1, 2});
  return board;
}

std::vector<Probe> probes(Board& board) {
  return {
      board.volts("out"), board.volts("e_hi", "out"), board.volts("vp", "lo"), board.amps("R11"),
      board.amps("Q4"),   board.amps("Q5"),           board.amps("Q3"),        board.amps("L1"),
      board.amps("L2"),   board.amps("L3"),           board.amps("V1"),        board.amps("I1"),
      board.amps("D1"),   AmpsThrough{RailId{0}},     AmpsThrough{RailId{1}},  board.watts("Q4"),
      board.watts("Q3"),  board.watts("Q5"),          board.watts("R10"),      board.watts("VR1"),
      board.watts("V1"),  WattsIn{RailId{0}}};
}

/// A stage at its solution, to be read off it.
struct Bench {
  explicit Bench(const Board& drawn)
      : board(drawn), solver(board.circuit, {}), ideals(solver.system()) {
    const Found found = solver.solve();
    REQUIRE(std::holds_alternative<Solution>(found));
    state = std::get<Solution>(found).state;
  }

  [[nodiscard]] ProbeGradient read(const Probe& probe) {
    return probe_gradient(board.circuit,
                          probe,
                          solver.system(),
                          solver.numbers(),
                          ideals,
                          solver.work(),
                          no_heat(board.circuit),
                          {},
                          Eigen::VectorXd());
  }

  /// With the state moved along one unknown.
  [[nodiscard]] double value_beside(const Probe& probe, std::size_t unknown, double step_v) {
    State moved = state;
    moved.x[unknown] += step_v;
    assemble(solver.system(), solver.numbers(), {}, Limiting::off, moved, solver.work());
    return read(probe).value;
  }

  /// With one track turned and the state as it was.
  [[nodiscard]] double value_turned(const Probe& probe, std::size_t track, double travel) {
    solver.set_travel(board.circuit, track, travel);
    State same = state;
    assemble(solver.system(), solver.numbers(), {}, Limiting::off, same, solver.work());
    return read(probe).value;
  }

  Board board;
  StageSolver solver;
  IdealCurrents ideals;
  State state;
};

/// The hold V1 ties `lo`, and through a short `x`, to ground: it carries what is fed in there
/// without any voltage moving.
double carried_by_hold(const std::string& probe, const std::string& node) {
  if (node != "lo" && node != "x") return 0.0;
  if (probe == "amps V1") return 1.0;
  return probe == "watts V1" ? -1.21 : 0.0;
}

}  // namespace

TEST_CASE("A probe reads the same at the state as in the operating point", "[solve][identity]") {
  Board board = probed_stage();
  const std::vector<Probe> all = probes(board);
  const Settled stage = settle(board);
  Bench bench(board);
  for (std::size_t k = 0; k < all.size(); ++k) {
    CAPTURE(circuit::write_probe(board.circuit, all[k]));
    const double expected = stage.point.read(stage.circuit, all[k]);
    CHECK_THAT(bench.read(all[k]).value, WithinAbs(expected, 1e-12 + 1e-9 * std::abs(expected)));
  }
}

TEST_CASE("A reading's gradient by the unknowns equals central differences", "[solve][identity]") {
  Board board = probed_stage();
  const std::vector<Probe> all = probes(board);
  Bench bench(board);
  const auto size = static_cast<std::size_t>(bench.solver.system().unknowns);
  for (const Probe& probe : all) {
    const ProbeGradient gradient = bench.read(probe);
    double largest = 0.0;
    for (std::size_t k = 0; k < size; ++k) {
      largest = std::max(largest, std::abs(gradient.by_unknown[k]));
    }
    for (std::size_t k = 0; k < size; ++k) {
      constexpr double step_v = 1e-5;
      const double difference =
          bench.value_beside(probe, k, step_v) - bench.value_beside(probe, k, -step_v);
      CAPTURE(circuit::write_probe(board.circuit, probe), k);
      CHECK_THAT(gradient.by_unknown[k],
                 WithinAbs(difference / (2.0 * step_v), 1e-9 + 1e-6 * largest));
    }
    (void)bench.value_beside(probe, 0, 0.0);
  }
}

TEST_CASE("A reading's gradient by a travel equals central differences", "[solve][identity]") {
  Board board = probed_stage();
  const std::vector<Probe> all = probes(board);
  Bench bench(board);
  for (const Probe& probe : all) {
    const double slope = bench.read(probe).by_travel.at(0);
    constexpr double step = 1e-5;
    const double difference =
        bench.value_turned(probe, 0, 0.5 + step) - bench.value_turned(probe, 0, 0.5 - step);
    CAPTURE(circuit::write_probe(board.circuit, probe));
    CHECK_THAT(slope, WithinAbs(difference / (2.0 * step), 1e-9 + 1e-6 * std::abs(slope)));
    (void)bench.value_turned(probe, 0, 0.5);
  }
}

TEST_CASE("The balances' slopes by a travel equal central differences", "[solve][identity]") {
  Bench bench(probed_stage());
  const System& system = bench.solver.system();
  std::vector<double> slopes(static_cast<std::size_t>(system.unknowns) + 1);
  balance_by_travel(
      bench.board.circuit, system, bench.solver.numbers(), 0, bench.solver.work(), slopes);
  const auto balances_at = [&](double travel) {
    (void)bench.value_turned(bench.board.volts("out"), 0, travel);
    return bench.solver.work().balance_a;
  };
  const std::vector<double> above = balances_at(0.5 + 1e-5);
  const std::vector<double> below = balances_at(0.5 - 1e-5);
  for (std::size_t k = 0; k + 1 < slopes.size(); ++k) {
    CHECK_THAT(slopes[k], WithinAbs((above[k] - below[k]) / 2e-5, 1e-8));
  }
}

TEST_CASE("What a gradient foretells of a fed current, a new solve confirms", "[solve][identity]") {
  const std::string node = GENERATE("out", "x", "d_hi", "lo");
  constexpr double fed_a = 1e-6;
  Board plus = probed_stage();
  plus.feed("IX", "gnd", node, fed_a, std::nullopt);
  Board minus = probed_stage();
  minus.feed("IX", "gnd", node, -fed_a, std::nullopt);
  const Settled above = settle(plus);
  const Settled below = settle(minus);
  Board board = probed_stage();
  const std::vector<Probe> all = probes(board);
  Bench bench(board);
  const System& system = bench.solver.system();
  // The balance at the node falls by the current fed in: dx = J^-1 e.
  std::vector<double> answer(static_cast<std::size_t>(system.unknowns) + 1, 0.0);
  const Index row = system.unknown_of[board.node(node).index];
  answer[static_cast<std::size_t>(row)] = row < system.unknowns ? 1.0 : 0.0;
  factor_slopes(system, bench.solver.work());
  REQUIRE(solve_factored(system, bench.solver.work(), answer));
  for (const Probe& probe : all) {
    const ProbeGradient gradient = bench.read(probe);
    double foretold = carried_by_hold(circuit::write_probe(board.circuit, probe), node);
    for (std::size_t k = 0; k + 1 < answer.size(); ++k) {
      foretold += gradient.by_unknown[k] * answer[k];
    }
    CAPTURE(node, circuit::write_probe(board.circuit, probe));
    const double moved =
        (above.point.read(above.circuit, probe) - below.point.read(below.circuit, probe)) /
        (2.0 * fed_a);
    CHECK_THAT(moved, WithinAbs(foretold, 1e-4 + 1e-4 * std::abs(foretold)));
  }
}

}  // namespace idlepoint::solve
