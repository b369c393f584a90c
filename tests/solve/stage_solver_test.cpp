// Oracle: the same stage solved from nothing, and edits against circuits drawn that way.
#include <algorithm>
#include <span>

#include "sample_boards.hpp"

namespace idlepoint::solve {
namespace {

using circuit::Circuit;
using circuit::Edit;

/// Voltages of the nodes the drawing names, by a solver that has solved something else before.
std::vector<double> voltages(StageSolver& solver, const Circuit& circuit) {
  const Found found = solver.solve();
  REQUIRE(std::holds_alternative<Solution>(found));
  const auto& points = solver.work().point_v;
  return {points.begin(), points.begin() + static_cast<std::ptrdiff_t>(circuit.nodes.size())};
}

void check_close(const std::vector<double>& a, const std::vector<double>& b, double within_v) {
  REQUIRE(a.size() == b.size());
  for (std::size_t k = 0; k < a.size(); ++k) {
    CAPTURE(k);
    CHECK_THAT(a[k], WithinAbs(b[k], within_v));
  }
}

}  // namespace

TEST_CASE("A warm start ends where the cold one does", "[solve][identity]") {
  const auto which = GENERATE(range(std::size_t{0}, std::size_t{5}));
  const Board board = sample_boards()[which];
  StageSolver solver(board.circuit, {});
  const Found before = solver.solve();
  REQUIRE(std::holds_alternative<Solution>(before));
  Board changed = board;
  for (auto& part : changed.circuit.parts) {
    if (part.kind == circuit::PartKind::resistor) part.value *= 1.03;
  }
  solver.load(changed.circuit, {});
  const Found warm = solver.solve_from(std::get<Solution>(before).state);
  REQUIRE(std::holds_alternative<Solution>(warm));
  const Found cold = solver.solve();
  CAPTURE(which);
  check_close(std::get<Solution>(warm).state.x, std::get<Solution>(cold).state.x, 1e-10);
}

TEST_CASE(
    "From where the nodes of another copy stand the way is shorter, and ends where the cold one "
    "does",
    "[solve][identity]") {
  const auto which = GENERATE(range(std::size_t{0}, std::size_t{5}));
  Board board = sample_boards()[which];
  StageSolver solver(board.circuit, {});
  const std::vector<double> node_v = voltages(solver, board.circuit);
  for (auto& part : board.circuit.parts) {
    if (part.kind == circuit::PartKind::resistor) part.value *= 1.001;
  }
  solver.load(board.circuit, {});
  const Found near = solver.solve_from(solver.state_at(node_v));
  REQUIRE(std::holds_alternative<Solution>(near));
  const Found cold = solver.solve();
  CAPTURE(which);
  const auto& found = std::get<Solution>(near);
  check_close(found.state.x, std::get<Solution>(cold).state.x, 1e-9);
  CHECK(found.report.strategy == "newton");
  CHECK(found.report.iterations <= std::get<Solution>(cold).report.iterations);
}

TEST_CASE("A faulty stage starts from the sound one's nodes, its own new ones unheard of",
          "[solve][identity]") {
  Board board = output_stage();
  const auto output = board.node("out").index;
  StageSolver sound(board.circuit, {});
  const std::vector<double> node_v = voltages(sound, board.circuit);
  std::vector<double> and_beyond = node_v;
  and_beyond.resize(node_v.size() + 4, -77.0);  // what may lie behind in memory
  std::size_t with_new_nodes = 0;
  for (const Edit& edit : circuit::every_open_and_short(board.circuit)) {
    const auto faulty = edited(board, {edit});
    CAPTURE(circuit::write_fault(board.circuit, edit));
    StageSolver solver(*faulty, {});
    const State start = solver.state_at(std::span(and_beyond).first(node_v.size()));
    CHECK(start.x == solver.state_at(node_v).x);
    CHECK(std::find(start.x.begin(), start.x.end(), -77.0) == start.x.end());
    if (faulty->nodes.size() > node_v.size()) ++with_new_nodes;
    const bool is_near = std::holds_alternative<Solution>(solver.solve_from(start));
    const double output_v = solver.work().point_v.at(output);
    REQUIRE(is_near == std::holds_alternative<Solution>(solver.solve()));
    CHECK_THAT(solver.work().point_v.at(output), WithinAbs(output_v, 1e-6));
  }
  CHECK(with_new_nodes > 0);
}

TEST_CASE("A hopeless warm start still ends in the cold state", "[solve][identity]") {
  const Board board = output_stage();
  StageSolver solver(board.circuit, {});
  const State cold = std::get<Solution>(solver.solve()).state;
  State far = cold;
  for (double& v : far.x) v = 1e5;
  far.x.back() = 0.0;
  const Found found = solver.solve_from(far);
  REQUIRE(std::holds_alternative<Solution>(found));
  check_close(std::get<Solution>(found).state.x, cold.x, 1e-9);
}

TEST_CASE(
    "Every open and short of a stage is solved alike by a solver that goes from one to the next",
    "[solve][identity]") {
  const Board board = output_stage();
  StageSolver solver(board.circuit, {});
  for (const Edit& edit : circuit::every_open_and_short(board.circuit)) {
    const auto faulty = edited(board, {edit});
    CAPTURE(circuit::write_fault(board.circuit, edit));
    solver.load(*faulty, {});
    StageSolver fresh(*faulty, {});
    const Found one = solver.solve();
    const Found other = fresh.solve();
    REQUIRE(one.index() == other.index());
    if (const auto* solution = std::get_if<Solution>(&one)) {
      CHECK(solution->state.x == std::get<Solution>(other).state.x);
    }
  }
}

TEST_CASE("Only an edit of the topology compiles anew", "[solve][identity]") {
  const Board board = output_stage();
  StageSolver solver(board.circuit, {});
  const Wiring before = solver.system().wiring;
  const auto keeps = [&](const Edit& edit) {
    solver.load(*edited(board, {edit}), {});
    return solver.system().wiring == before;
  };
  CHECK(keeps(circuit::SetValue{board.part("R8"), 1e3}));
  CHECK(keeps(circuit::SetTravel{board.part("VR1"), 0.9}));
  CHECK(keeps(circuit::SetGain{board.part("Q4"), 20.0}));
  CHECK_FALSE(keeps(circuit::SetValue{board.part("R8"), 0.0}));
  CHECK_FALSE(keeps(circuit::OpenPart{board.part("R8")}));
  CHECK_FALSE(keeps(circuit::ShortLeads{board.part("Q4"), 0, 2}));
  CHECK_FALSE(keeps(circuit::LoseRail{circuit::RailId{0}}));
}

TEST_CASE("A solver that has gone through faults is back where it began", "[solve][identity]") {
  const Board board = output_stage();
  StageSolver solver(board.circuit, {});
  const std::vector<double> before = voltages(solver, board.circuit);
  solver.load(*edited(board, {circuit::OpenPart{board.part("R8")}}), {});
  (void)solver.solve();
  solver.load(*edited(board, {circuit::SetValue{board.part("R8"), 0.0}}), {});
  (void)solver.solve();
  solver.load(board.circuit, {});
  CHECK(voltages(solver, board.circuit) == before);
}

TEST_CASE("A travel set in the numbers is the travel of the drawing", "[solve][identity]") {
  const double travel = GENERATE(0.0, 0.2, 1.0);
  Board board = output_stage();
  StageSolver turned(board.circuit, {});
  turned.set_travel(board.circuit, 0, travel);
  auto& details = board.circuit.at(board.part("VR1")).details;
  std::get<circuit::TrimmerDetails>(details).travel = travel;
  StageSolver drawn(board.circuit, {});
  check_close(voltages(turned, board.circuit), voltages(drawn, board.circuit), 1e-12);
}

TEST_CASE("Rails at a fraction are a drawing with smaller rails", "[solve][identity]") {
  Board board = output_stage();
  const Settled scaled = settle(board, {.rails = 0.4});
  for (auto& rail : board.circuit.rails) rail.nominal_v *= 0.4;
  const Settled drawn = settle(board);
  CHECK_THAT(scaled.volts("out"), WithinAbs(drawn.volts("out"), 1e-12));
  // A hold is no rail: it stands in for something else.
  CHECK_THAT(scaled.volts("lo"), WithinAbs(-1.21, 1e-12));
}

}  // namespace idlepoint::solve
