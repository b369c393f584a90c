// Oracle: half a picosiemens from every node to ground, by hand; the feed's logistic law, retyped.
#include <boost/math/tools/roots.hpp>
#include <cmath>

#include "board.hpp"

namespace idlepoint::solve {

TEST_CASE("A node that only capacitors reach sits at 0 V", "[solve][analytic]") {
  Board board;
  board.rail("vp", 40.0).capacitor("C1", "vp", "a").capacitor("C2", "a", "gnd");
  const Settled stage = settle(board);
  CHECK(stage.volts("a") == 0.0);
  CHECK(stage.amps("C1") == 0.0);
}

TEST_CASE("A leakage of two teraohm halves the rail on a clean board", "[solve][analytic]") {
  Board board;
  board.rail("vp", 40.0).resistor("R1", "vp", "a", 2e12).capacitor("C1", "a", "gnd");
  CHECK_THAT(settle(board).volts("a"), WithinRel(20.0, 1e-12));
}

TEST_CASE("A diode's leakage lifts a node that only insulation holds", "[solve][analytic]") {
  devices::DiodeData leaky;
  leaky.saturation_current_a = 0.1e-12;
  Board board;
  const auto type = board.diode_type(leaky);
  board.rail("vp", 10.0).diode("D1", "a", "vp", type);
  // 0.1 pA into 2 teraohm.
  CHECK_THAT(settle(board).volts("a"), WithinRel(0.2, 1e-9));
}

TEST_CASE("Linked nodes are insulated once each", "[solve][analytic]") {
  Board board;
  board.feed("I1", "gnd", "a", 3e-12, std::nullopt).link("L1", "a", "b").link("L2", "b", "c");
  const Settled stage = settle(board);
  CHECK_THAT(stage.volts("c"), WithinRel(2.0, 1e-12));
  // Two of the three picoamperes leak away beyond the first link.
  CHECK_THAT(stage.amps("L1"), WithinRel(2e-12, 1e-6));
  CHECK_THAT(stage.amps("L2"), WithinRel(1e-12, 1e-6));
}

TEST_CASE("A point inside a part is not insulated", "[solve][analytic]") {
  devices::DiodeData leaky;
  leaky.saturation_current_a = 1e-12;
  leaky.series_resistance_ohm = 1e3;
  Board board;
  const auto type = board.diode_type(leaky);
  board.feed("I1", "gnd", "a", 1e-9, std::nullopt).resistor("R1", "a", "gnd", 1e9);
  board.diode("D1", "gnd", "a", type);
  // 1 V across a reversed diode: 1 nA less its leakage and the node's half picoampere.
  const double expected_v = (1e-9 - 1e-12) / (1e-9 + 0.5e-12);
  CHECK_THAT(settle(board).volts("a"), WithinRel(expected_v, 1e-9));
}

TEST_CASE("An ideal feed without a path has no finite solution", "[solve][analytic]") {
  const double amps = GENERATE(1e-3, -5e-3, 0.6e-6);
  Board board;
  board.rail("vp", 20.0).resistor("R1", "vp", "gnd", 1e3);
  board.feed("I1", "vp", "a", amps, std::nullopt).capacitor("C1", "a", "gnd");
  const NotSettled story = refuse(board);
  CHECK(story.reason == NotSettled::Reason::no_finite_solution);
  CHECK(story.node == board.node("a"));
  CHECK_FALSE(story.likely.empty());
}

TEST_CASE("A feed too small to reach a million volts has a solution", "[solve][analytic]") {
  Board board;
  board.feed("I1", "gnd", "a", 0.4e-6, std::nullopt);
  CHECK_THAT(settle(board).volts("a"), WithinRel(0.8e6, 1e-9));
}

TEST_CASE("A feed falls off along its compliance as the logistic law says", "[solve][analytic]") {
  const double load_ohm = GENERATE(100.0, 1.5e3, 1.9e3, 2e3, 2.2e3, 10e3, 1e6);
  const double compliance_v = GENERATE(0.3, 2.0);
  Board board;
  board.rail("vp", 10.0).feed("I1", "vp", "a", 5e-3, compliance_v);
  board.resistor("R1", "a", "gnd", load_ohm);
  const auto left_a = [&](double v) {
    const double fed_a = 5e-3 / (1.0 + std::exp(-(10.0 - v - compliance_v) / 0.05));
    return fed_a - v / load_ohm - 0.5e-12 * v;
  };
  const auto done = [](double a, double b) { return std::abs(a - b) < 1e-13; };
  const auto [low, high] = boost::math::tools::bisect(left_a, 0.0, 20.0, done);
  const Settled stage = settle(board);
  CAPTURE(load_ohm, compliance_v);
  CHECK_THAT(stage.volts("a"), WithinAbs(0.5 * (low + high), 1e-9));
  CHECK_THAT(stage.amps("I1"), WithinAbs(stage.amps("R1"), 6e-12));
}

TEST_CASE("A feed with compliance and no path stops where insulation takes what is left",
          "[solve][analytic]") {
  Board board;
  board.rail("vp", 10.0).feed("I1", "vp", "a", 5e-3);
  // exp(-(V - 0.3)/0.05) = 5 mA / (0.5 pS v) with v = 10 - V: by substitution.
  double across_v = 0.0;
  for (int k = 0; k < 20; ++k) {
    across_v = 0.3 - 0.05 * std::log(5e-3 / (0.5e-12 * (10.0 - across_v)) - 1.0);
  }
  CHECK_THAT(settle(board).volts("a"), WithinAbs(10.0 - across_v, 1e-6));
}

}  // namespace idlepoint::solve
