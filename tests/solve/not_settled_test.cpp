// Oracle: circuits made to have no honest answer, each told apart by its reason, and each told
// completely.
#include <algorithm>
#include <cmath>

#include "board.hpp"
#include "solve/balance_check.hpp"

namespace idlepoint::solve {
namespace {

using circuit::PartKind;

void check_story(const NotSettled& story) {
  CHECK_FALSE(story.likely.empty());
  CHECK_FALSE(story.tried.empty());
  for (const Attempt& attempt : story.tried) {
    CAPTURE(attempt.strategy);
    CHECK_FALSE(attempt.strategy.empty());
    CHECK_FALSE(attempt.stopped_at.empty());
    CHECK(attempt.steps > 0);
  }
  CHECK(std::isfinite(story.worst_balance_a));
}

}  // namespace

TEST_CASE("A transistor driven beyond its inverse Early voltage is outside its law",
          "[solve][analytic]") {
  devices::BipolarData data = plain_transistor();
  data.inverse_early_voltage_v = 0.5;
  Board board;
  const auto type = board.bipolar_type(PartKind::npn, data);
  // 0.6 V of 0.5 V: w = 1 - Ube/Ui is negative at the only state there is.
  board.rail("vp", 10.0).hold("V1", "b", "gnd", 0.6).resistor("R1", "vp", "c", 1e3);
  board.transistor("Q1", "c", "b", "gnd", type);
  const NotSettled story = refuse(board);
  CHECK(story.reason == NotSettled::Reason::outside_law);
  CHECK(story.part == board.part("Q1"));
  check_story(story);
}

TEST_CASE("An early voltage of 5 V with 30 V across is within the law", "[solve][analytic]") {
  devices::BipolarData data = plain_transistor();
  data.early_voltage_v = 5.0;
  Board board;
  const auto type = board.bipolar_type(PartKind::npn, data);
  board.rail("vp", 30.0).hold("V1", "b", "gnd", 0.6);
  board.transistor("Q1", "vp", "b", "gnd", type);
  // Ic = Is exp(Ube/U) w with w = 1 - Ubc/Ua; U at 298.15 K.
  const double thermal_v = 1.380649e-23 * 298.15 / 1.602176634e-19;
  const double expected_a = 2e-14 * std::expm1(0.6 / thermal_v) * (1.0 + 29.4 / 5.0);
  CHECK_THAT(settle(board).amps("Q1"), WithinRel(expected_a, 1e-6));
}

TEST_CASE("Five volts straight across a diode is outside its law", "[solve][analytic]") {
  devices::DiodeData data;
  data.saturation_current_a = 1e-12;
  Board board;
  const auto type = board.diode_type(data);
  board.rail("vp", 5.0).diode("D1", "vp", "gnd", type).resistor("R1", "vp", "gnd", 1e3);
  const NotSettled story = refuse(board);
  CHECK(story.reason == NotSettled::Reason::outside_law);
  CHECK(story.part == board.part("D1"));
  check_story(story);
}

TEST_CASE("An exact contradiction needs no attempt", "[solve][analytic]") {
  Board board;
  board.hold("V1", "a", "gnd", 1.0).hold("V2", "a", "gnd", 2.0);
  const NotSettled story = refuse(board);
  CHECK(story.reason == NotSettled::Reason::no_finite_solution);
  CHECK(story.tried.empty());
  CHECK(story.loop.size() == 2);
}

TEST_CASE("Rounding larger than the balance is told as such, with the node", "[solve][analytic]") {
  // A picoohm beside 30 ohm: one bit of 29.7 V is milliamperes there.
  Board board;
  board.rail("vp", 29.7).resistor("R1", "vp", "a", 1e-12).resistor("R2", "a", "b", 7.3);
  board.resistor("R3", "b", "gnd", 23.9);
  const NotSettled story = refuse(board);
  CHECK(story.reason == NotSettled::Reason::did_not_settle);
  REQUIRE(story.tried.size() == 4);
  CHECK(story.tried[0].strategy == "newton");
  CHECK(story.tried[1].strategy == "conductance");
  CHECK(story.tried[2].strategy == "rails");
  CHECK(story.tried[3].strategy == "pseudo-transient");
  CHECK(story.node == board.node("a"));
  check_story(story);
}

TEST_CASE("The balance check looks at the laws where the state stands, not at tangents",
          "[solve][identity]") {
  Board board;
  devices::DiodeData data;
  data.saturation_current_a = 1e-12;
  const auto type = board.diode_type(data);
  board.rail("vp", 10.0).resistor("R1", "vp", "a", 1e3).diode("D1", "a", "gnd", type);
  StageSolver solver(board.circuit, {});
  State state = std::get<Solution>(solver.solve()).state;
  CHECK(check_balance(solver.system(), solver.numbers(), state, solver.work()).holds);
  // 30 mV is more than twice a junction's current, and more than its limited step.
  const auto row = static_cast<std::size_t>(solver.system().unknown_of[board.node("a").index]);
  state.x[row] += 0.03;
  const BalanceCheck off = check_balance(solver.system(), solver.numbers(), state, solver.work());
  CHECK_FALSE(off.holds);
  CHECK(static_cast<std::size_t>(off.unknown) == row);
  const double current_a = (10.0 - state.x[row]) / 1e3;
  CHECK_THAT(off.worst_a, WithinRel(current_a * std::expm1(0.03 / 0.0256926), 1e-2));
}

TEST_CASE("What is reported as left over is below half a picoampere and a billionth",
          "[solve][identity]") {
  Board board;
  const auto type = board.diode_type(small_diode());
  board.rail("vp", 10.0).resistor("R1", "vp", "a", 4.7).diode("D1", "a", "gnd", type);
  const Settled stage = settle(board);
  CHECK(stage.point.solver().residual_a <= 0.5e-12 + 1e-9 * stage.amps("D1"));
  CHECK(stage.point.solver().iterations > 0);
  CHECK(stage.point.solver().strategy == "newton");
}

TEST_CASE("A stage of held points alone has nothing to solve and is solved", "[solve][analytic]") {
  Board board;
  board.rail("vp", 10.0, 0.0).resistor("R1", "vp", "gnd", 2.0);
  const Settled stage = settle(board);
  CHECK_THAT(stage.delivered_a(0), WithinRel(5.0, 1e-10));
  CHECK(stage.point.solver().residual_a == 0.0);
}

}  // namespace idlepoint::solve
