// Oracle: resistances in series and parallel, by hand; a diode's own law and its closed form behind
// a resistance, I = (nU/R) W0(x) - Is; the divider that a meter's input resistance makes.
#include "circuit/hand_meter.hpp"

#include <boost/math/special_functions/lambert_w.hpp>
#include <cmath>

#include "board.hpp"
#include "circuit/power_off.hpp"

namespace idlepoint::solve {
namespace {

using circuit::HandMeter;
using circuit::NodeId;
using Range = HandMeter::Range;

constexpr double test_ohm = 200.0;  // 0.2 V that give 1 mA into a short
constexpr double silicon_u_v = 298.15 * 1.380649e-23 / 1.602176634e-19;

double volts_at(const Board& board, const std::string& red, const std::string& black, Range range) {
  circuit::CheckedCircuit stage = circuit::power_off(board.checked());
  const auto a = *circuit::find_node(*stage, red);
  const auto b = *circuit::find_node(*stage, black);
  const Settled settled = settle(stage.edited([&](circuit::Circuit& circuit) {
    const HandMeter meter = range == Range::ohms    ? circuit::add_ohms_range(circuit, a, b)
                            : range == Range::diode ? circuit::add_diode_range(circuit, a, b)
                                                    : circuit::add_volts_range(circuit, a, b);
    circuit::connect(circuit, meter);
  }));
  return settled.point.voltage_v(a) - settled.point.voltage_v(b);
}

double ohms(const Board& board, const std::string& red, const std::string& black) {
  const auto shown = circuit::ohms_shown(volts_at(board, red, black, Range::ohms));
  REQUIRE(shown);
  return *shown;
}

double parallel(double one_ohm, double other_ohm) {
  return one_ohm * other_ohm / (one_ohm + other_ohm);
}

}  // namespace

TEST_CASE("An ohm-meter finds a network's resistance, whichever way round its leads are",
          "[solve][analytic]") {
  Board board;
  board.resistor("R1", "a", "b", 1e3).resistor("R2", "b", "c", 2.2e3);
  board.resistor("R3", "a", "c", 4.7e3).resistor("R4", "c", "gnd", 1e6);
  CHECK_THAT(ohms(board, "a", "c"), WithinRel(parallel(4.7e3, 3.2e3), 1e-6));
  CHECK_THAT(ohms(board, "c", "a"), WithinRel(parallel(4.7e3, 3.2e3), 1e-6));
  CHECK_THAT(ohms(board, "b", "a"), WithinRel(parallel(1e3, 6.9e3), 1e-6));
  CHECK_THAT(ohms(board, "c", "gnd"), WithinRel(1e6, 1e-5));
}

TEST_CASE("An emitter resistor and a dead short read to the milliohm", "[solve][analytic]") {
  Board board;
  board.resistor("R1", "a", "gnd", 0.22).link("L1", "b", "gnd");
  CHECK_THAT(ohms(board, "a", "gnd"), WithinAbs(0.22, 1e-6));
  CHECK_THAT(ohms(board, "b", "gnd"), WithinAbs(0.0, 1e-6));
}

TEST_CASE("With the power off a rail is a kilohm and its own resistance to ground",
          "[solve][analytic]") {
  Board board;
  board.rail("vp", 33.0, 0.8).rail("vn", -33.0, 0.8).resistor("R1", "a", "vp", 2.2e3);
  CHECK_THAT(ohms(board, "vp", "gnd"), WithinRel(1000.8, 1e-6));
  CHECK_THAT(ohms(board, "a", "gnd"), WithinRel(3200.8, 1e-6));
  CHECK_THAT(ohms(board, "vp", "vn"), WithinRel(2001.6, 1e-6));
}

TEST_CASE("With the power off a lost rail has no way to ground", "[solve][analytic]") {
  Board board;
  board.rail("vp", 33.0, 0.8).resistor("R1", "a", "vp", 2.2e3);
  board.circuit.rails[0].lost = true;
  CHECK_FALSE(circuit::ohms_shown(volts_at(board, "a", "gnd", Range::ohms)));
  CHECK_THAT(ohms(board, "a", "vp"), WithinRel(2.2e3, 1e-6));
}

TEST_CASE("With the power off stand-in sources deliver nothing and conduct nothing",
          "[solve][analytic]") {
  Board board;
  board.hold("V1", "a", "gnd", 12.0).feed("I1", "gnd", "a", 5e-3);
  board.resistor("R1", "a", "gnd", 680.0);
  CHECK_THAT(ohms(board, "a", "gnd"), WithinRel(680.0, 1e-6));
}

TEST_CASE("An ohm-meter sees a capacitor's leakage and nothing else of it", "[solve][analytic]") {
  Board board;
  board.capacitor("C1", "a", "gnd").capacitor("C2", "b", "gnd");
  std::get<circuit::CapacitorDetails>(board.circuit.at(board.part("C1")).details).leakage_ohm =
      47e3;
  CHECK_THAT(ohms(board, "a", "gnd"), WithinRel(47e3, 1e-5));
  CHECK_FALSE(circuit::ohms_shown(volts_at(board, "b", "gnd", Range::ohms)));
}

TEST_CASE(
    "A junction on the ohms range carries the Lambert-W current, and reads open the other way",
    "[solve][analytic]") {
  devices::DiodeData data;
  data.saturation_current_a = 1e-6;  // germanium: silicon hardly conducts at 0.2 V
  data.ideality = 1.1;
  Board board;
  board.diode("D1", "a", "gnd", board.diode_type(data));
  const double scale_v = 1.1 * silicon_u_v;
  const double leak_v = test_ohm * 1e-6;
  const double x = leak_v / scale_v * std::exp((0.2 + leak_v) / scale_v);
  const double amps = (scale_v * boost::math::lambert_w0(x) - leak_v) / test_ohm;
  CHECK_THAT(ohms(board, "a", "gnd"), WithinRel((0.2 - test_ohm * amps) / amps, 1e-6));
  // Backwards all but its saturation current is gone: 0.2 V less 200 ohms of it, over it.
  CHECK_THAT(ohms(board, "gnd", "a"), WithinRel(0.2 / 1e-6 - test_ohm, 0.01));
}

TEST_CASE("The diode range shows a junction's volts at one milliampere", "[solve][analytic]") {
  devices::DiodeData data;
  data.saturation_current_a = 2e-9;
  data.ideality = 1.8;
  data.series_resistance_ohm = 3.0;
  Board board;
  const auto type = board.diode_type(data);
  board.diode("D1", "a", "b", type).diode("D2", "b", "gnd", type);
  const double one_v = 1.8 * silicon_u_v * std::log(1e-3 / 2e-9 + 1.0) + 3e-3;
  CHECK_THAT(volts_at(board, "a", "b", Range::diode), WithinRel(one_v, 1e-6));
  CHECK_THAT(volts_at(board, "a", "gnd", Range::diode), WithinRel(2.0 * one_v, 1e-6));
}

TEST_CASE("The diode range stops at 2.5 V where there is no way through", "[solve][analytic]") {
  devices::DiodeData data;
  data.saturation_current_a = 2e-14;
  Board board;
  board.diode("D1", "a", "gnd", board.diode_type(data)).resistor("R1", "b", "gnd", 470.0);
  board.capacitor("C1", "c", "b");
  CHECK_THAT(volts_at(board, "gnd", "a", Range::diode), WithinAbs(2.5, 1e-6));
  CHECK_THAT(volts_at(board, "c", "b", Range::diode), WithinAbs(2.5, 1e-6));
  CHECK_THAT(volts_at(board, "b", "gnd", Range::diode), WithinRel(0.47, 1e-6));
  CHECK_FALSE(circuit::diode_shown(2.5));
}

TEST_CASE("The volts range loads a divider with the meter's input resistance",
          "[solve][analytic]") {
  Board board;
  board.rail("vp", 20.0).resistor("R1", "vp", "a", 1e6).resistor("R2", "a", "gnd", 1e6);
  board.circuit.meter.input_ohm = 20e3 * 10.0;  // 20 kilohms a volt, 10 V range
  const auto a = board.node("a");
  const auto meter = circuit::add_volts_range(board.circuit, a, circuit::ground);
  CHECK_THAT(settle(board).volts("a"), WithinRel(10.0, 1e-5));
  circuit::connect(board.circuit, meter);
  const double lower_ohm = parallel(1e6, 200e3);
  CHECK_THAT(settle(board).volts("a"), WithinRel(20.0 * lower_ohm / (1e6 + lower_ohm), 1e-6));
}

TEST_CASE("Meters that wait disturb none that is connected, and switching keeps the wiring",
          "[solve][identity]") {
  devices::DiodeData data;
  data.saturation_current_a = 2e-9;
  data.ideality = 1.8;
  Board board;
  board.diode("D1", "a", "b", board.diode_type(data)).resistor("R1", "b", "gnd", 330.0);
  board.rail("vp", 30.0, 0.5).resistor("R2", "vp", "a", 10e3);
  const double alone_v = volts_at(board, "a", "b", Range::diode);
  const double alone_ohm = ohms(board, "b", "gnd");
  const NodeId a = board.node("a");
  const NodeId b = board.node("b");
  circuit::Circuit all = *circuit::power_off(board.checked());
  std::vector<HandMeter> meters;
  for (const auto& [red, black] :
       {std::pair{a, b}, {b, a}, {b, circuit::ground}, {a, circuit::ground}}) {
    meters.push_back(circuit::add_ohms_range(all, red, black));
    meters.push_back(circuit::add_diode_range(all, red, black));
  }
  StageSolver solver(all, {});
  const Wiring compiled = solver.system().wiring;
  const auto measured_v = [&](const HandMeter& meter) {
    circuit::connect(all, meter);
    solver.load(all, {});
    CHECK(solver.system().wiring == compiled);
    const auto found = solver.solve();
    REQUIRE(std::holds_alternative<Solution>(found));
    circuit::disconnect(all, meter);
    const auto& point_v = solver.work().point_v;
    return point_v.at(meter.points.a.index) - point_v.at(meter.points.b.index);
  };
  CHECK_THAT(measured_v(meters[1]), WithinRel(alone_v, 1e-6));
  CHECK_THAT(*circuit::ohms_shown(measured_v(meters[4])), WithinRel(alone_ohm, 1e-6));
  CHECK_THAT(measured_v(meters[3]), WithinAbs(2.5, 0.02));
  CHECK_THAT(measured_v(meters[1]), WithinRel(alone_v, 1e-6));
}

TEST_CASE("What the ohms range shows is the resistance that its volts stand for",
          "[circuit][analytic]") {
  CHECK(circuit::ohms_shown(0.0) == 0.0);
  CHECK_THAT(*circuit::ohms_shown(0.1), WithinRel(200.0, 1e-12));
  CHECK_THAT(*circuit::ohms_shown(circuit::volts_of_ohms(1e6)), WithinRel(1e6, 1e-9));
  CHECK_THAT(circuit::volts_of_ohms(600.0), WithinRel(0.15, 1e-12));
  CHECK_FALSE(circuit::ohms_shown(0.2));
  CHECK_FALSE(circuit::ohms_shown(circuit::volts_of_ohms(21e6)));
  CHECK(circuit::ohms_shown(circuit::volts_of_ohms(19e6)));
}

}  // namespace idlepoint::solve
