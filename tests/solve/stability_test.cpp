// Oracle: the eigenvalues of the slopes as a dense matrix (with one farad at every point, a mode
// with a negative one grows), and states of bistable pairs worked out by hand.
#include "solve/stability.hpp"

#include <Eigen/Eigenvalues>
#include <algorithm>

#include "sample_boards.hpp"
#include "solve/newton.hpp"

namespace idlepoint::solve {
namespace {

using circuit::PartKind;

/// Two transistors, each one's control lead on the other's collector or drain.
Board crossed_pair(circuit::TypeId (*make_type)(Board&), double control_ohm) {
  Board board;
  const circuit::TypeId type = make_type(board);
  board.rail("vp", 10.0).resistor("R1", "vp", "c1", 1e3).resistor("R2", "vp", "c2", 1e3);
  board.resistor("R3", "c1", "b2", control_ohm).resistor("R4", "c2", "b1", control_ohm);
  board.resistor("R5", "b1", "gnd", 1e6).resistor("R6", "b2", "gnd", 1e6);
  board.transistor("Q1", "c1", "b1", "gnd", type).transistor("Q2", "c2", "b2", "gnd", type);
  return board;
}

circuit::TypeId npn(Board& board) { return board.bipolar_type(PartKind::npn, plain_transistor()); }

circuit::TypeId n_mosfet(Board& board) {
  return board.fet_type(PartKind::n_mosfet, small_mosfet());
}

/// The real eigenvalues of the slopes that are below 0, most negative first.
std::vector<double> growing_rates(const System& system, const Work& work) {
  const Index size = system.unknowns;
  Eigen::MatrixXd slopes = Eigen::MatrixXd::Zero(size, size);
  const auto put = [&](Index row, Index column) {
    const Index slot = system.elimination.slot(row, column);
    slopes(row, column) = work.slopes_s[static_cast<std::size_t>(slot)];
  };
  const auto put_all = [&](const auto& stamps) {
    for (const auto& stamp : stamps) {
      for (const Index row : stamp.rows) {
        for (const Index column : stamp.rows) {
          if (row < size && column < size) put(row, column);
        }
      }
    }
  };
  put_all(system.bipolars);
  put_all(system.fets);
  for (const auto* stamps : {&system.conductors, &system.diodes, &system.lamps, &system.feeds}) {
    for (const TwoPoleStamp& stamp : *stamps) {
      if (stamp.row_a < size) put(stamp.row_a, stamp.row_a);
      if (stamp.row_b < size) put(stamp.row_b, stamp.row_b);
      if (stamp.row_a >= size || stamp.row_b >= size) continue;
      put(stamp.row_a, stamp.row_b);
      put(stamp.row_b, stamp.row_a);
    }
  }
  std::vector<double> rates;
  for (const auto& value : slopes.eigenvalues()) {
    if (value.imag() == 0.0 && value.real() < 0.0) rates.push_back(value.real());
  }
  std::sort(rates.begin(), rates.end());
  return rates;
}

/// A pair at the balance that keeps its symmetry, where Newton ends from the cold start.
struct SymmetricBalance {
  explicit SymmetricBalance(const Board& board) : solver(board.circuit, {}) {
    state = cold_start(solver.system(), solver.numbers());
    REQUIRE(iterate(solver.system(), solver.numbers(), {}, state, solver.work()).settled);
    rates = growing_rates(solver.system(), solver.work());
  }

  [[nodiscard]] bool counts_as_stable() {
    return is_stable(solver.system(), solver.numbers(), state, solver.work());
  }

  StageSolver solver;
  State state;
  std::vector<double> rates;
};

std::vector<double> growing_rates_of_found_state(const Board& board) {
  StageSolver solver(board.circuit, {});
  REQUIRE(std::holds_alternative<Solution>(solver.solve()));
  return growing_rates(solver.system(), solver.work());
}

}  // namespace

TEST_CASE("The balance of two crossed transistors would not stay, and is not reported",
          "[solve][analytic]") {
  const Board board = crossed_pair(npn, 10e3);
  SymmetricBalance balance(board);
  CHECK_FALSE(balance.counts_as_stable());
  CHECK(balance.rates.size() == 1);
  const Settled stage = settle(board);
  CHECK(stage.point.has_other_states());
  CHECK(growing_rates_of_found_state(board).size() % 2 == 0);
  const auto [low, high] = std::minmax({stage.volts("c1"), stage.volts("c2")});
  // One is hard on. The other's collector is divided from 10 V down to 0.7 V by 1k and 10k.
  CHECK(low < 0.2);
  CHECK_THAT(high, WithinAbs(10.0 - (10.0 - 0.7) / 11.0, 0.05));
}

TEST_CASE("The balance of two crossed mosfets would not stay, and is not reported",
          "[solve][analytic]") {
  const Board board = crossed_pair(n_mosfet, 10e3);
  SymmetricBalance balance(board);
  CHECK_FALSE(balance.counts_as_stable());
  CHECK(balance.rates.size() == 1);
  const Settled stage = settle(board);
  CHECK(stage.point.has_other_states());
  const auto [low, high] = std::minmax({stage.volts("c1"), stage.volts("c2")});
  CHECK(low < 0.5);
  // No gate current but through 10k and 1M.
  CHECK_THAT(high, WithinRel(10.0 * 1010.0 / 1011.0, 1e-3));
}

TEST_CASE("Crossed transistors with a loop gain below 1 stay in balance", "[solve][analytic]") {
  // 10 megohm before each base: 100 times less drive than is needed to keep the other one off.
  const Board board = crossed_pair(npn, 10e6);
  SymmetricBalance balance(board);
  CHECK(balance.counts_as_stable());
  CHECK(balance.rates.empty());
  const Settled stage = settle(board);
  CHECK_FALSE(stage.point.has_other_states());
  CHECK_THAT(stage.volts("c1"), WithinAbs(stage.volts("c2"), 1e-9));
}

TEST_CASE("Sound stages are reported with one state, without an odd mode that grows",
          "[solve][analytic]") {
  const auto which = GENERATE(range(std::size_t{0}, std::size_t{5}));
  const Board board = sample_boards()[which];
  CAPTURE(which);
  CHECK_FALSE(settle(board).point.has_other_states());
  CHECK(growing_rates_of_found_state(board).size() % 2 == 0);
}

TEST_CASE("A growing mode of a symmetrical pair is antisymmetric and grows at its own rate",
          "[solve][analytic]") {
  const Board board = crossed_pair(npn, 10e3);
  SymmetricBalance balance(board);
  const System& system = balance.solver.system();
  const GrowingMode mode = growing_mode(system, balance.solver.work());
  const auto entry = [&](const char* name) {
    const auto node = circuit::find_node(board.circuit, name);
    const auto unknown = system.unknown_of[node.value().index];
    return mode.direction_v[static_cast<std::size_t>(unknown)];
  };
  CHECK(entry("c1") * entry("c2") < 0.0);
  CHECK_THAT(entry("c1"), WithinRel(-entry("c2"), 1e-3));
  CHECK_THAT(mode.rate_s, WithinRel(-balance.rates.at(0), 1e-2));
}

namespace {

/// A long-tailed pair, a second stage, and its output back on the base that it steers against
/// (`right`) or on the one it supports (`wrong`).
Board follower(bool is_right) {
  Board board;
  const auto npn_type = board.bipolar_type(PartKind::npn, small_transistor());
  const auto pnp_type = board.bipolar_type(PartKind::pnp, small_transistor());
  const char* input = is_right ? "b1" : "b2";
  const char* feedback = is_right ? "b2" : "b1";
  board.rail("vp", 20.0, 0.1).rail("vn", -20.0, 0.1);
  board.resistor("R1", input, "gnd", 10e3).resistor("R2", feedback, "out", 10e3);
  board.transistor("Q1", "c1", "b1", "t", npn_type).transistor("Q2", "vp", "b2", "t", npn_type);
  board.resistor("R3", "t", "vn", 10e3).resistor("R4", "vp", "c1", 680.0);
  board.transistor("Q3", "out", "c1", "vp", pnp_type).resistor("R5", "out", "vn", 4.7e3);
  return board;
}

}  // namespace

TEST_CASE("Feedback to the right base holds the output near 0 V in one state",
          "[solve][analytic]") {
  const Settled stage = settle(follower(true));
  // Base current of half the tail through 10k, both sides alike.
  CHECK(std::abs(stage.volts("out")) < 0.15);
  CHECK_FALSE(stage.point.has_other_states());
}

TEST_CASE("Feedback to the wrong base is met with a state that stays, at a rail",
          "[solve][analytic]") {
  const Board board = follower(false);
  const Settled stage = settle(board);
  CHECK(std::abs(stage.volts("out")) > 15.0);
  CHECK(growing_rates_of_found_state(board).size() % 2 == 0);
}

}  // namespace idlepoint::solve
