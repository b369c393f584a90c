// Oracle: the same circuit with equal small resistances in the place of the links, Kirchhoff's law
// at every node, and sharing worked out by hand.
#include <algorithm>

#include "board.hpp"

namespace idlepoint::solve {
namespace {

using circuit::NodeId;
using circuit::PartId;
using circuit::RailId;

/// `joints` are links, or resistors of one value.
Board joined(const std::vector<std::pair<std::string, std::string>>& joints, double ohm) {
  Board board;
  for (std::size_t k = 0; k < joints.size(); ++k) {
    const std::string name = numbered("J", k);
    if (ohm == 0.0) {
      board.link(name, joints[k].first, joints[k].second);
    } else {
      board.resistor(name, joints[k].first, joints[k].second, ohm);
    }
  }
  return board;
}

/// The sum of the currents that leave a node into parts, less what rails deliver there.
double leaving_a(const Settled& stage, NodeId node) {
  double sum = 0.0;
  for (std::size_t k = 0; k < stage.circuit.parts.size(); ++k) {
    const circuit::Part& part = stage.circuit.parts[k];
    for (std::size_t lead = 0; lead < part.leads.size(); ++lead) {
      if (part.leads[lead] == node) sum += stage.point.part(PartId{k}).lead_current_a[lead];
    }
  }
  for (std::size_t k = 0; k < stage.circuit.rails.size(); ++k) {
    if (stage.circuit.rails[k].node == node) sum -= stage.delivered_a(k);
  }
  return sum + (node == circuit::ground ? 0.0 : 0.5e-12 * stage.point.voltage_v(node));
}

void check_every_node(const Settled& stage) {
  for (std::size_t k = 1; k < stage.circuit.nodes.size(); ++k) {
    CAPTURE(stage.circuit.nodes[k].name);
    CHECK(std::abs(leaving_a(stage, NodeId{k})) < 1e-12);
  }
}

using Joints = std::vector<std::pair<std::string, std::string>>;

}  // namespace

TEST_CASE("A loop of links shares its current as small resistances would", "[solve][analytic]") {
  const Joints joints = GENERATE(Joints{{"a", "b"}, {"b", "c"}, {"c", "a"}},
                                 Joints{{"a", "b"}, {"a", "b"}, {"b", "c"}, {"c", "a"}},
                                 Joints{{"a", "b"}, {"b", "c"}, {"c", "gnd"}, {"gnd", "a"}},
                                 Joints{{"a", "x1"},
                                        {"x1", "x2"},
                                        {"x2", "b"},
                                        {"a", "y1"},
                                        {"y1", "y2"},
                                        {"y2", "b"},
                                        {"x1", "y1"},
                                        {"x2", "y2"},
                                        {"b", "c"}});
  const auto complete = [&](double ohm) {
    Board board = joined(joints, ohm);
    board.feed("I1", "gnd", "a", 0.7, std::nullopt).feed("I2", "gnd", "b", 0.2, std::nullopt);
    board.resistor("R1", "c", "gnd", 2.0).resistor("R2", "b", "gnd", 3.0);
    return board;
  };
  const Settled links = settle(complete(0.0));
  const Settled resistors = settle(complete(1e-6));
  for (std::size_t k = 0; k < joints.size(); ++k) {
    const std::string name = numbered("J", k);
    CAPTURE(name, joints.size());
    CHECK_THAT(links.amps(name), WithinAbs(resistors.amps(name), 3e-6));
  }
  check_every_node(links);
}

TEST_CASE("Three links in a triangle carry two thirds and one third", "[solve][analytic]") {
  Board board = joined({{"a", "b"}, {"a", "c"}, {"c", "b"}}, 0.0);
  board.feed("I1", "gnd", "a", 0.9, std::nullopt).resistor("R1", "b", "gnd", 10.0);
  const Settled stage = settle(board);
  CHECK_THAT(stage.amps("J0"), WithinAbs(0.6, 1e-11));
  CHECK_THAT(stage.amps("J1"), WithinAbs(0.3, 1e-11));
  CHECK_THAT(stage.amps("J2"), WithinAbs(0.3, 1e-11));
  CHECK_THAT(stage.volts("c"), WithinRel(9.0, 1e-10));
}

TEST_CASE("A chain of links carries what the resistors along it draw", "[solve][analytic]") {
  Board board;
  board.rail("n0", 10.0);
  double expected_a = 0.0;
  for (int k = 1; k <= 5; ++k) {
    const std::string here = numbered("n", k);
    board.link(numbered("L", k), numbered("n", k - 1), here);
    board.resistor(numbered("R", k), here, "gnd", 100.0 * k);
  }
  const Settled stage = settle(board);
  for (int k = 5; k >= 1; --k) {
    expected_a += 10.0 / (100.0 * k);
    CHECK_THAT(stage.amps(numbered("L", k)), WithinAbs(expected_a, 1e-10));
  }
  CHECK_THAT(stage.delivered_a(0), WithinAbs(expected_a, 1e-10));
  check_every_node(stage);
}

TEST_CASE("A link carries the current of the resistor it is in series with", "[solve][analytic]") {
  Board board;
  board.rail("vp", 12.0).resistor("R1", "vp", "a", 330.0).link("L1", "a", "b");
  board.resistor("R2", "b", "gnd", 470.0);
  const Settled stage = settle(board);
  CHECK_THAT(stage.amps("L1"), WithinRel(12.0 / 800.0, 1e-9));
  CHECK_THAT(stage.amps("L1"), WithinRel(stage.amps("R1"), 1e-9));
  CHECK_THAT(stage.watts("L1"), WithinAbs(0.0, 1e-12));
}

TEST_CASE("A rail of no resistance stands at its volts and delivers all that is drawn",
          "[solve][analytic]") {
  Board board;
  board.rail("vp", 30.0, 0.0).rail("vn", -30.0, 0.0);
  board.resistor("R1", "vp", "m", 10.0).resistor("R2", "m", "vn", 20.0);
  const Settled stage = settle(board);
  CHECK(stage.volts("vp") == 30.0);
  CHECK_THAT(stage.volts("m"), WithinAbs(10.0, 1e-9));
  CHECK_THAT(stage.delivered_a(0), WithinRel(2.0, 1e-9));
  CHECK_THAT(stage.delivered_a(1), WithinRel(-2.0, 1e-9));
  CHECK_THAT(stage.point.total_power_w(), WithinRel(120.0, 1e-9));
}

TEST_CASE("A rail's resistance drops its share before the node", "[solve][analytic]") {
  Board board;
  board.rail("vp", 30.0, 0.5).resistor("R1", "vp", "gnd", 9.5);
  const Settled stage = settle(board);
  CHECK_THAT(stage.volts("vp"), WithinRel(28.5, 1e-9));
  CHECK_THAT(stage.delivered_a(0), WithinRel(3.0, 1e-9));
  // Of the source before its resistance.
  CHECK_THAT(stage.point.rail(RailId{0}).power_w, WithinRel(90.0, 1e-9));
}

TEST_CASE("Holds in a loop that add to nothing share like links", "[solve][analytic]") {
  Board board;
  board.hold("V1", "a", "gnd", 3.0).hold("V2", "b", "a", 2.0).hold("V3", "b", "gnd", 5.0);
  board.resistor("R1", "b", "gnd", 5.0);
  const Settled stage = settle(board);
  CHECK_THAT(stage.volts("b"), WithinAbs(5.0, 1e-9));
  // 1 A into b: V3 alone against V1 and V2 in series.
  CHECK_THAT(stage.amps("V3"), WithinAbs(-2.0 / 3.0, 1e-11));
  CHECK_THAT(stage.amps("V2"), WithinAbs(-1.0 / 3.0, 1e-11));
  CHECK_THAT(stage.amps("V1"), WithinAbs(-1.0 / 3.0, 1e-11));
  check_every_node(stage);
}

TEST_CASE("Ideal branches that contradict each other are refused by name", "[solve][analytic]") {
  Board board;
  board.rail("vp", 12.0).link("L1", "vp", "a").hold("V1", "a", "b", 2.0);
  board.hold("V2", "b", "gnd", 9.0).resistor("R1", "a", "gnd", 1e3).link("L2", "c", "gnd");
  const NotSettled story = refuse(board);
  CHECK(story.reason == NotSettled::Reason::no_finite_solution);
  REQUIRE(story.loop.size() == 4);
  const auto names = [&](const LoopMember& member) {
    return std::find(story.loop.begin(), story.loop.end(), member) != story.loop.end();
  };
  CHECK(names(RailId{0}));
  CHECK(names(board.part("L1")));
  CHECK(names(board.part("V1")));
  CHECK(names(board.part("V2")));
  CHECK_FALSE(story.likely.empty());
}

TEST_CASE("Two stiff rails joined by a link are refused, with a resistance they fight",
          "[solve][analytic]") {
  Board stiff;
  stiff.rail("vp", 30.0).rail("vn", -30.0).link("L1", "vp", "vn");
  CHECK(refuse(stiff).loop.size() == 3);
  Board soft;
  soft.rail("vp", 30.0, 0.2).rail("vn", -30.0, 0.1).link("L1", "vp", "vn");
  const Settled stage = settle(soft);
  CHECK_THAT(stage.amps("L1"), WithinRel(200.0, 1e-9));
  CHECK_THAT(stage.volts("vp"), WithinAbs(-10.0, 1e-8));
}

TEST_CASE("A link from a point to itself changes nothing", "[solve][analytic]") {
  Board board;
  board.rail("vp", 10.0).resistor("R1", "vp", "a", 1e3).resistor("R2", "a", "gnd", 1e3);
  board.link("L1", "a", "a").link("L2", "gnd", "gnd");
  const Settled stage = settle(board);
  CHECK_THAT(stage.volts("a"), WithinRel(5.0, 1e-8));
  CHECK(stage.amps("L1") == 0.0);
}

}  // namespace idlepoint::solve
