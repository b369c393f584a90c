// Oracle: dividers and loaded tracks worked out by hand, end and wiper resistances included.
#include "solve/adjust.hpp"

#include <cmath>

#include "board.hpp"

namespace idlepoint::solve {
namespace {

using circuit::SpareLeg;
using circuit::TrackEnd;
using circuit::TrimmerDetails;

Adjusted adjusted(const Board& board, const SafeEnds& safe_ends = {}) {
  auto outcome = solve_adjustments(board.checked(), {}, safe_ends);
  REQUIRE(std::holds_alternative<Adjusted>(outcome));
  return std::get<Adjusted>(std::move(outcome));
}

constexpr double track_ohm = 10e3;
constexpr double end_ohm = 80.0;

TrimmerDetails details(double wiper_ohm, double travel = 0.5) {
  TrimmerDetails result;
  result.end_resistance_ohm = end_ohm;
  result.wiper_resistance_ohm = wiper_ohm;
  result.travel = travel;
  return result;
}

/// 10 V over the whole track, a load from the wiper to ground.
Board divider(double target_v, double load_ohm, const TrimmerDetails& track) {
  Board board;
  board.rail("vp", 10.0).trimmer("VR1", "vp", "w", "gnd", track_ohm, track);
  board.resistor("RL", "w", "gnd", load_ohm);
  board.adjust("VR1", board.volts("w"), target_v);
  return board;
}

/// The divider's voltage by hand.
double divided_v(double travel, double load_ohm, double wiper_ohm) {
  const double upper = travel * track_ohm + end_ohm;
  const double lower = (1.0 - travel) * track_ohm + end_ohm;
  const double loaded = 1.0 / (1.0 / lower + 1.0 / (wiper_ohm + load_ohm));
  return 10.0 * loaded / (upper + loaded) * load_ohm / (wiper_ohm + load_ohm);
}

}  // namespace

TEST_CASE("A divider's trimmer is found where the hand finds it", "[solve][analytic]") {
  const double travel = GENERATE(0.001, 0.03, 0.25, 0.5, 0.77, 0.998);
  const double load_ohm = GENERATE(22e3, 1e9);
  const double wiper_ohm = GENERATE(0.0, 150.0);
  const Board board = divider(divided_v(travel, load_ohm, wiper_ohm), load_ohm, details(wiper_ohm));
  const Adjusted result = adjusted(board);
  const Setting& setting = result.settings.at(0);
  CAPTURE(travel, load_ohm, wiper_ohm);
  CHECK_THAT(setting.travel, WithinAbs(travel, 1e-8));
  CHECK(setting.reached);
  CHECK_FALSE(setting.at_end);
  CHECK(setting.other_travels.empty());
  CHECK(setting.trimmer == board.part("VR1"));
  const double step = 1e-5;
  const double slope = (divided_v(travel + step, load_ohm, wiper_ohm) -
                        divided_v(travel - step, load_ohm, wiper_ohm)) /
                       (2.0 * step);
  CHECK_THAT(setting.slope_per_travel, WithinRel(slope, 1e-6));
}

TEST_CASE("The answer does not depend on where the file has the trimmer", "[solve][identity]") {
  const double at = GENERATE(0.0, 0.1, 0.9, 1.0);
  const Setting half = adjusted(divider(3.3, 22e3, details(50.0))).settings.at(0);
  const Setting other = adjusted(divider(3.3, 22e3, details(50.0, at))).settings.at(0);
  CHECK(other.travel == half.travel);
  CHECK(other.reading_value == half.reading_value);
  CHECK(other.slope_per_travel == half.slope_per_travel);
}

TEST_CASE("The state that comes with a setting is the stage with that travel set",
          "[solve][identity]") {
  const Adjusted result = adjusted(divider(3.3, 22e3, details(50.0)));
  const Settled again = settle(result.circuit);
  CHECK_THAT(again.volts("w"), WithinAbs(3.3, 1e-9));
  CHECK_THAT(result.settings.at(0).reading_value, WithinAbs(again.volts("w"), 1e-12));
  CHECK_THAT(result.state.voltage_v(circuit::NodeId{2}), WithinAbs(again.volts("w"), 1e-12));
}

TEST_CASE("A target out of reach sets the end that comes nearest", "[solve][analytic]") {
  const auto [target_v, end] = GENERATE(std::pair(12.0, 0.0), std::pair(-1.0, 1.0));
  const Setting setting = adjusted(divider(target_v, 22e3, details(0.0))).settings.at(0);
  CAPTURE(target_v);
  CHECK(setting.travel == end);
  CHECK(setting.at_end);
  CHECK_FALSE(setting.reached);
  CHECK_THAT(setting.reading_value, WithinRel(divided_v(end, 22e3, 0.0), 1e-9));
}

TEST_CASE("A target a hair past the end counts as reached there if its band allows",
          "[solve][analytic]") {
  Board board = divider(divided_v(0.0, 22e3, 0.0) + 0.01, 22e3, details(0.0));
  board.circuit.adjustments[0].within = 0.02;
  const Setting setting = adjusted(board).settings.at(0);
  CHECK(setting.travel == 0.0);
  CHECK(setting.reached);
}

namespace {

/// A variable resistor in series with 1 kilohm at 10 V: current 10 / (1k + track).
Board rheostat(const TrimmerDetails& track, const char* third, double target_a) {
  Board board;
  board.rail("vp", 10.0).trimmer("VR1", "vp", "w", third, 4.7e3, track);
  board.resistor("R1", "w", "gnd", 1e3);
  board.adjust("VR1", board.amps("R1"), target_a, 1e-9);
  return board;
}

}  // namespace

TEST_CASE("A trimmer of two legs is a variable resistor, its spare leg tied or free",
          "[solve][analytic]") {
  const double end = GENERATE(0.0, 80.0);
  const std::string third = GENERATE("-", "w");
  TrimmerDetails track;
  track.end_resistance_ohm = end;
  track.wiper_resistance_ohm = 20.0;
  track.spare = third == "-" ? SpareLeg::free : SpareLeg::tied;
  // Tied at the wiper's terminal, behind the wiper's resistance: the other stretch runs beside it.
  const double travel = 0.3;
  const double other_ohm = 0.7 * 4.7e3 + end;
  const double behind_ohm = third == "-" ? 20.0 : 1.0 / (1.0 / 20.0 + 1.0 / other_ohm);
  const double expected_a = 10.0 / (1e3 + 0.3 * 4.7e3 + end + behind_ohm);
  const Setting setting = adjusted(rheostat(track, third.c_str(), expected_a)).settings.at(0);
  CAPTURE(end, third);
  CHECK_THAT(setting.travel, WithinAbs(travel, 1e-8));
  CHECK(setting.reached);
}

TEST_CASE("A track without end resistance is set at its very end when asked for too much",
          "[solve][analytic]") {
  TrimmerDetails track;
  track.end_resistance_ohm = 0.0;
  track.spare = SpareLeg::free;
  // At no resistance at all 10 mA would flow.
  const Setting setting = adjusted(rheostat(track, "-", 11e-3)).settings.at(0);
  CHECK(setting.at_end);
  CHECK(setting.travel < 1e-6);
  CHECK_THAT(setting.reading_value, WithinRel(10e-3, 1e-5));
}

TEST_CASE("A power that peaks on the way has two positions, the first from the safe end",
          "[solve][analytic]") {
  TrimmerDetails track;
  track.spare = SpareLeg::free;
  Board board = rheostat(track, "-", 1.0);
  board.circuit.readings.clear();
  board.circuit.adjustments.clear();
  // P = V^2 R / (R + Rs)^2 = 24 mW: R^2 + (2 Rs - V^2/P) R + Rs^2 = 0, R the track with one end.
  constexpr double target_w = 24e-3;
  board.adjust("VR1", board.watts("VR1"), target_w, 1e-9);
  const double half = 0.5 * (100.0 / target_w - 2e3);
  const double root = std::sqrt(half * half - 1e6);
  const double low = (half - root - 1.0) / 4.7e3;
  const double high = (half + root - 1.0) / 4.7e3;
  const bool from_b = GENERATE(false, true);
  const SafeEnds ends{from_b ? TrackEnd::b : TrackEnd::a};
  const Setting setting = adjusted(board, ends).settings.at(0);
  CAPTURE(from_b);
  CHECK_THAT(setting.travel, WithinAbs(from_b ? high : low, 1e-7));
  REQUIRE(setting.other_travels.size() == 1);
  CHECK_THAT(setting.other_travels[0], WithinAbs(from_b ? low : high, 1e-7));
  CHECK(setting.reached);
}

TEST_CASE("A track with both ends on the rail reads alike on either side of its middle",
          "[solve][analytic]") {
  Board board;
  TrimmerDetails track;
  board.rail("vp", 10.0).trimmer("VR1", "vp", "w", "vp", track_ohm, track);
  board.resistor("R1", "w", "gnd", 5e3);
  // At 0.2: 2001 and 8001 ohm side by side.
  const double side_ohm = 2001.0 * 8001.0 / 10002.0;
  board.adjust("VR1", board.volts("w"), 50e3 / (5e3 + side_ohm));
  const Setting setting = adjusted(board).settings.at(0);
  CHECK_THAT(setting.travel, WithinAbs(0.2, 1e-8));
  REQUIRE(setting.other_travels.size() == 1);
  CHECK_THAT(setting.other_travels[0], WithinAbs(0.8, 1e-8));
}

}  // namespace idlepoint::solve
