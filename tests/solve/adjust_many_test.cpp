// Oracle: two trimmers that move each other's readings, solved by hand; a transistor stage, whose
// slope is confirmed by solving it beside its answer.
#include <catch2/catch.hpp>

#include "sample_boards.hpp"
#include "solve/adjust.hpp"

namespace idlepoint::solve {
namespace {

Adjusted adjusted(const circuit::CheckedCircuit& circuit) {
  auto outcome = solve_adjustments(circuit, {}, {});
  REQUIRE(std::holds_alternative<Adjusted>(outcome));
  return std::get<Adjusted>(std::move(outcome));
}

/// Two variable resistors and 1 kilohm in a chain from 12 V; each moves both points.
Board chain(double a_v, double b_v) {
  Board board;
  circuit::TrimmerDetails track;
  track.end_resistance_ohm = 2.0;
  track.spare = circuit::SpareLeg::free;
  board.rail("vp", 12.0).trimmer("VR1", "vp", "a", "-", 2e3, track);
  board.trimmer("VR2", "a", "b", "-", 5e3, track).resistor("R1", "b", "gnd", 1e3);
  board.adjust("VR1", board.volts("a"), a_v);
  board.adjust("VR2", board.volts("b"), b_v);
  return board;
}

Board biased_stage(double target_v) {
  Board board = output_stage();
  board.adjust("VR1", board.volts("e_hi", "e_lo"), target_v, 1e-5);
  return board;
}

}  // namespace

TEST_CASE("Two coupled trimmers are found where the hand finds them", "[solve][analytic]") {
  const double b_v = GENERATE(2.0, 3.0, 4.5);
  const double a_v = GENERATE(8.0, 9.0);
  const Adjusted result = adjusted(chain(a_v, b_v).checked());
  const double amps = b_v / 1e3;
  CAPTURE(a_v, b_v);
  const double first = ((12.0 - a_v) / amps - 2.0) / 2e3;
  const double second = ((a_v - b_v) / amps - 2.0) / 5e3;
  REQUIRE(first > 0.0);
  REQUIRE(first < 1.0);
  CHECK_THAT(result.settings.at(0).travel, WithinAbs(first, 1e-7));
  CHECK_THAT(result.settings.at(1).travel, WithinAbs(second, 1e-7));
  CHECK(result.settings[0].reached);
  CHECK(result.settings[1].reached);
  CHECK(result.newton_steps <= 12);
}

TEST_CASE("Of two trimmers one may be at its end while the other reaches", "[solve][analytic]") {
  // 12 V cannot be had at `a` behind VR1's own 2 ohm; `b` can still be 3 V.
  const Adjusted result = adjusted(chain(12.0, 3.0).checked());
  CHECK(result.settings.at(0).at_end);
  CHECK(result.settings[0].travel == 0.0);
  CHECK_FALSE(result.settings[0].reached);
  CHECK(result.settings.at(1).reached);
  const double track_ohm = 9.0 / 3e-3 - 2.0 - 2.0;
  CHECK_THAT(result.settings[1].travel, WithinAbs(track_ohm / 5e3, 1e-7));
}

TEST_CASE("A stage's quiescent voltage is set, and its slope foretells a turn of the trimmer",
          "[solve][identity]") {
  const double target_v = GENERATE(5e-3, 20e-3, 60e-3);
  const Adjusted result = adjusted(biased_stage(target_v).checked());
  const Setting& setting = result.settings.at(0);
  CAPTURE(target_v, setting.travel);
  REQUIRE(setting.reached);
  CHECK_THAT(setting.reading_value, WithinAbs(target_v, 1e-9));
  const auto read_at = [&](double travel) {
    const Settled stage = settle(result.circuit.edited([&](circuit::Circuit& copy) {
      std::get<circuit::TrimmerDetails>(copy.at(setting.trimmer).details).travel = travel;
    }));
    return stage.volts("e_hi") - stage.volts("e_lo");
  };
  constexpr double step = 1e-5;
  const double slope =
      (read_at(setting.travel + step) - read_at(setting.travel - step)) / (2.0 * step);
  CHECK_THAT(setting.slope_per_travel, WithinRel(slope, 1e-4));
  CHECK(result.newton_steps <= 12);
}

TEST_CASE("Adjusting the same stage twice gives the same bits", "[solve][identity]") {
  const Adjusted one = adjusted(biased_stage(20e-3).checked());
  const Adjusted other = adjusted(biased_stage(20e-3).checked());
  CHECK(one.settings.at(0).travel == other.settings.at(0).travel);
  CHECK(one.settings[0].slope_per_travel == other.settings[0].slope_per_travel);
}

TEST_CASE("A reading that the trimmer does not move is left at an end, not reached",
          "[solve][identity]") {
  Board board = output_stage();
  board.adjust("VR1", board.volts("lo"), -3.0);
  const Setting setting = adjusted(board.checked()).settings.at(0);
  CHECK(setting.at_end);
  CHECK_FALSE(setting.reached);
  CHECK_THAT(setting.slope_per_travel, WithinAbs(0.0, 1e-12));
}

TEST_CASE("A lifted wiper cannot be set: the reading stays off its target", "[solve][identity]") {
  const Board board = biased_stage(20e-3);
  const auto lifted = edited(board, {circuit::LiftWiper{board.part("VR1")}});
  const Setting setting = adjusted(lifted).settings.at(0);
  CHECK_FALSE(setting.reached);
}

}  // namespace idlepoint::solve
