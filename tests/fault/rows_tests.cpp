// Oracle: what benches report of faults, as patterns: which readings rise, fall, stay, or equal
// each other. Common practice of the trade, without a source; no digit is asserted.
//
// Where a row is seen with the current limited, 47 ohms stand in each rail lead, as careful hands
// bring a repaired channel up.
#include <cmath>

#include "answers/asked.hpp"
#include "fault/explained.hpp"

namespace idlepoint::tests {
namespace {

constexpr double nothing_v = 0.3e-3;

circuit::CheckedCircuit with_safety_resistors(const circuit::CheckedCircuit& stage) {
  return stage.edited([](circuit::Circuit& circuit) {
    for (auto& rail : circuit.rails) rail.resistance_ohm += 47.0;
  });
}

/// A fault's readings by their names.
class Row {
 public:
  Row(const circuit::CheckedCircuit& stage, const std::string& fault)
      : answer_(explained(stage, fault)) {}
  Row(const std::string& stage, const std::string& fault) : Row(cold_demo(stage), fault) {}

  [[nodiscard]] double now(const std::string& name) const { return find(name).faulty; }
  [[nodiscard]] double was(const std::string& name) const { return find(name).healthy; }
  [[nodiscard]] double times(const std::string& name) const { return now(name) / was(name); }
  [[nodiscard]] double moved(const std::string& name) const { return now(name) - was(name); }
  [[nodiscard]] double rail_a(std::size_t rail) const {
    return std::abs(answer_.faulty_state.rail(circuit::RailId{rail}).delivered_a);
  }
  [[nodiscard]] double volts(const std::string& node) const {
    return answer_.faulty_state.voltage_v(*circuit::find_node(*answer_.faulty, node));
  }

 private:
  [[nodiscard]] const answers::FaultReading& find(const std::string& name) const {
    for (const auto& reading : answer_.readings) {
      if (reading.name == name) return reading;
    }
    FAIL("no reading " << name);
    return answer_.readings.front();
  }

  answers::Fault answer_;
};

bool alike(double one, double other, double share) {
  return std::abs(one - other) <= share * std::max(std::abs(one), std::abs(other));
}

Row limited(const std::string& stage, const std::string& fault) {
  return {with_safety_resistors(cold_demo(stage)), fault};
}

}  // namespace

TEST_CASE("A shorted output: both halves carry alike, the spread falls, the output is at no rail",
          "[fault][trade]") {
  for (const char* fault : {"Q607 short c-e", "Q608 short c-e", "Q605 short c-e"}) {
    CAPTURE(fault);
    const Row row = limited("spinney-45w", fault);
    CHECK(alike(row.now("upper"), row.now("lower"), 0.05));
    CHECK(row.times("upper") > 5.0);
    CHECK(row.now("spread") < 0.7 * row.was("spread"));
    CHECK(std::abs(row.now("offset")) < 0.6 * 36.0);
    CHECK(alike(row.rail_a(0), row.rail_a(1), 0.05));
  }
  CHECK(limited("spinney-45w", "Q607 short c-e").now("offset") >
        limited("spinney-45w", "Q608 short c-e").now("offset"));
}

TEST_CASE(
    "An output shorted from base to emitter: the driver becomes the output and is over-biased",
    "[fault][trade]") {
  const Row row = limited("spinney-45w", "Q607 short b-e");
  CHECK(row.times("upper") > 3.0);
  CHECK(alike(row.now("upper"), row.now("lower"), 0.05));
  CHECK_THAT(row.volts("d5"), WithinAbs(row.volts("e_hi"), 1e-9));
  CHECK(std::abs(row.now("offset")) < 1.0);
}

TEST_CASE("An open output: nothing in either resistor, the output near zero, the spread right",
          "[fault][trade]") {
  for (const char* fault : {"Q607 open", "Q608 open"}) {
    CAPTURE(fault);
    const Row row("spinney-45w", fault);
    CHECK(std::abs(row.now("lower")) < nothing_v);
    CHECK(std::abs(row.now("upper")) < nothing_v);
    CHECK(std::abs(row.now("offset")) < 1.0);
    CHECK(row.now("spread") > 0.9 * row.was("spread"));
    CHECK(row.now("rail") < 0.6 * row.was("rail"));
  }
}

TEST_CASE("An open emitter resistor: volts across it, nothing across the other", "[fault][trade]") {
  const Row upper("spinney-45w", "R611 open");
  CHECK(upper.now("upper") > 0.3);
  CHECK(std::abs(upper.now("lower")) < 0.3 * upper.was("lower"));
  CHECK(std::abs(upper.now("offset")) < 1.0);
  const Row lower("spinney-45w", "R612 open");
  CHECK(lower.now("lower") > 0.3);
  CHECK(std::abs(lower.now("upper")) < 0.3 * lower.was("upper"));
}

TEST_CASE("An emitter resistor three times its value: the millivolts are as the ohms",
          "[fault][trade]") {
  const Row row("spinney-45w", "R611 is 1R");
  CHECK_THAT(row.now("upper") / row.now("lower"), WithinRel(1.0 / 0.33, 0.02));
  CHECK(row.now("upper") > row.was("upper"));
  CHECK(row.now("lower") < row.was("lower"));
}

TEST_CASE("One of two parallel emitter resistors open: its twin carries more, all less",
          "[fault][trade]") {
  const Row row("cairnfell-120w", "R551 open");
  CHECK(row.now("upper_1") > 1.2 * row.was("upper_1"));
  CHECK(row.now("fuse") < row.was("fuse"));
  CHECK(std::abs(row.moved("offset")) < 5e-3);
}

TEST_CASE("A leaky lower driver: slight in followers, amplified in a quasi-complementary stage",
          "[fault][trade]") {
  const Row follower("spinney-45w", "Q606 leaks c-e 10k");
  const Row quasi("quarry-30w", "Q605 leaks c-e 10k");
  CHECK(follower.times("lower") > 1.0);
  CHECK(quasi.times("lower") > 1.3);
  CHECK(quasi.times("lower") > follower.times("lower"));
  CHECK(alike(quasi.moved("upper"), quasi.moved("lower"), 0.1));
}

TEST_CASE("A resistor that drains bases open: the standing current rises", "[fault][trade]") {
  CHECK(Row("quarry-30w", "R609 open").times("rail") > 1.5);
  CHECK(Row("quarry-30w", "R612 open").times("rail") > 1.5);
  CHECK(Row("spinney-45w", "R610 open").times("rail") > 1.2);
}

TEST_CASE("A compound half's base resistor open: far more current, the output stays",
          "[fault][trade]") {
  const Row row("drystone-40w", "R213 open");
  CHECK(row.times("both") > 4.0);
  CHECK(row.times("rail") > 3.0);
  CHECK(std::abs(row.moved("offset")) < 20e-3);
}

TEST_CASE("The pnp driver of a quasi-complementary half open reads as its emitter resistor open",
          "[fault][trade]") {
  const Row driver("quarry-30w", "Q605 open");
  const Row resistor("quarry-30w", "R610 open");
  for (const char* name : {"upper", "lower"}) {
    CHECK(std::abs(driver.now(name)) < nothing_v);
    CHECK(std::abs(resistor.now(name)) < nothing_v);
  }
  CHECK(std::abs(driver.now("offset")) < 1.0);
  CHECK(driver.now("rail") < 0.6 * driver.was("rail"));
  CHECK(alike(driver.now("rail"), resistor.now("rail"), 0.05));
}

TEST_CASE("A pierced insulator: one rail delivers, the other does not", "[fault][trade]") {
  const Row row = limited("spinney-45w", "bridge psu_p gnd");
  CHECK(row.rail_a(0) > 10.0 * row.rail_a(1));
  CHECK(row.rail_a(0) > 0.5);
}

TEST_CASE("A spreader open, or its upper leg: both halves hard on, the spread as far as it goes",
          "[fault][trade]") {
  for (const char* fault : {"Q604 open", "R608 open"}) {
    CAPTURE(fault);
    const Row row = limited("spinney-45w", fault);
    CHECK(row.times("upper") > 5.0);
    CHECK(alike(row.now("upper"), row.now("lower"), 0.05));
    CHECK(row.now("spread") > row.was("spread"));
    CHECK(alike(row.rail_a(0), row.rail_a(1), 0.05));
  }
}

TEST_CASE("A spreader shorted, or its lower leg open: no standing current, the spread low",
          "[fault][trade]") {
  for (const char* fault : {"Q604 short c-e", "R609 open"}) {
    CAPTURE(fault);
    const Row row("spinney-45w", fault);
    CHECK(std::abs(row.now("upper")) < nothing_v);
    CHECK(std::abs(row.now("lower")) < nothing_v);
    CHECK(row.now("spread") < 0.5 * row.was("spread"));
    CHECK(row.now("rail") < row.was("rail"));
  }
}

TEST_CASE("The upper leg of a spreader a fifth high: the standing current multiplies",
          "[fault][trade]") {
  const Row row("spinney-45w", "R608 is 2k4");
  CHECK(row.times("both") > 2.0);
  CHECK(row.now("spread") > row.was("spread"));
}

TEST_CASE("A diode string that opens: forced through the drivers; a shorted diode: none left",
          "[fault][trade]") {
  for (const char* fault : {"D601 open", "D602 open"}) {
    CAPTURE(fault);
    const Row row = limited("quarry-30w", fault);
    CHECK(row.times("upper") > 10.0);
    CHECK(alike(row.now("upper"), row.now("lower"), 0.05));
    CHECK(row.now("spread") > row.was("spread"));
  }
  const Row shorted("quarry-30w", "D601 short");
  CHECK(std::abs(shorted.now("upper")) < nothing_v);
  CHECK_THAT(shorted.moved("spread"), WithinAbs(-0.7, 0.15));
  CHECK(limited("sedge-28w", "D901 open").times("upper") > 10.0);
}

TEST_CASE("The bootstrap: a higher resistor or a leak takes current, an open one takes all",
          "[fault][trade]") {
  CHECK(Row("quarry-30w", "R606 is 2k9").times("upper") < 0.8);
  CHECK(Row("quarry-30w", "C604 leaks 10k").times("upper") < 0.8);
  CHECK(Row("spinney-45w", "C605 leaks 10k").times("rail") < 1.0);
  const Row open("quarry-30w", "R606 open");
  CHECK(std::abs(open.now("upper")) < nothing_v);
  CHECK(open.now("rail") < 0.2 * open.was("rail"));
}

TEST_CASE("Thermistors of a germanium stage: open is full bias, shorted is none, leaks add",
          "[fault][trade]") {
  const Row open("bramble-8w", "TH701 open");
  CHECK(open.times("upper") > 2.0);
  CHECK(open.now("mid") > open.was("mid"));
  const Row lower("bramble-8w", "TH702 open");
  CHECK(lower.times("lower") > 2.0);
  CHECK(lower.now("mid") < lower.was("mid"));
  CHECK(Row("bramble-8w", "TH701 short").times("upper") < 0.5);
  const Row leak("bramble-8w", "Q703 leaks c-e 220R");
  CHECK(leak.times("rail") > 1.2);
  CHECK(leak.now("mid") < leak.was("mid"));
}

TEST_CASE("The spread of a MOSFET stage open: the gates part and both halves are full on",
          "[fault][trade]") {
  const Row row = limited("tarn-70w", "VR801 open");
  CHECK(row.times("upper") > 4.0);
  CHECK(row.now("spread") > row.was("spread"));
}

TEST_CASE("No drive: the output at the pull-down's rail without current", "[fault][trade]") {
  for (const char* fault : {"Q603 open", "R605 open", "Q601 open", "R603 open"}) {
    CAPTURE(fault);
    const Row row("spinney-45w", fault);
    CHECK(row.now("offset") < -0.8 * 36.0);
    CHECK(std::abs(row.now("upper")) < nothing_v);
    CHECK(row.now("rail") < 0.5 * row.was("rail"));
  }
}

TEST_CASE("Drive forced: the output at the upper rail with equal large millivolts",
          "[fault][trade]") {
  for (const char* fault : {"Q603 short c-e", "Q602 open", "R604 open", "Q601 short c-e"}) {
    CAPTURE(fault);
    const Row row("spinney-45w", fault);
    CHECK(row.now("offset") > 0.7 * 36.0);
    CHECK(row.times("upper") > 3.0);
    CHECK(alike(row.now("upper"), row.now("lower"), 0.05));
  }
}

TEST_CASE("What moves an offset: tail and collector load pull against each other, gains likewise",
          "[fault][trade]") {
  CHECK(Row("spinney-45w", "R603 is 24k").moved("offset") < -10e-3);
  CHECK(Row("spinney-45w", "R602 is 1k2").moved("offset") > 10e-3);
  CHECK(Row("spinney-45w", "Q601 gain 58").moved("offset") < -0.1);
  CHECK(Row("spinney-45w", "Q602 gain 58").moved("offset") > 0.1);
}

TEST_CASE("A leaky feedback electrolytic: offset grows with the leak, far when it is shorted",
          "[fault][trade]") {
  const double slight = std::abs(Row("spinney-45w", "C602 leaks 470k").moved("offset"));
  const double more = std::abs(Row("spinney-45w", "C602 leaks 47k").moved("offset"));
  const double shorted = std::abs(Row("spinney-45w", "C602 short").moved("offset"));
  CHECK(slight > 1e-3);
  CHECK(more > 4.0 * slight);
  CHECK(shorted > 10.0 * more);
}

TEST_CASE("A single supply's divider: its lower half open lifts the joint, a leak pulls it down",
          "[fault][trade]") {
  const Row open("wherry-25w", "R603 open");
  CHECK(open.now("joint") > 0.9 * 58.0);
  CHECK(std::abs(open.now("upper")) < nothing_v);
  const Row leak("wherry-25w", "C601 leaks 47k");
  CHECK(leak.moved("joint") < -2.0);
  CHECK(leak.times("rail") > 1.3);
  const Row slight("wherry-25w", "C601 leaks 470k");
  CHECK(slight.now("joint") < slight.was("joint"));
  CHECK(slight.now("joint") > leak.now("joint"));
}

TEST_CASE("A leaky output electrolytic: the upper resistor reads, the lower does not",
          "[fault][trade]") {
  const Row row = [] {
    auto stage = cold_demo("wherry-25w");
    return Row(stage, "C607 leaks 100R");
  }();
  CHECK(row.times("upper") > 1.5);
  CHECK(row.now("lower") < 0.2 * row.was("lower"));
  CHECK(std::abs(row.moved("joint")) < 0.1);
}

TEST_CASE("Twin voltage amplifiers, one open: no current, no spread, the output off a little",
          "[fault][trade]") {
  const Row row("corrie-70w", "Q405 open");
  CHECK(std::abs(row.now("upper")) < nothing_v);
  CHECK(row.now("spread") < 0.1);
  CHECK(std::abs(row.now("offset")) > 0.1);
  CHECK(std::abs(row.now("offset")) < 3.0);
  CHECK(row.now("rail") < 0.2 * row.was("rail"));
}

TEST_CASE("An offset trimmer's wiper open is worse than the bias trimmer's", "[fault][trade]") {
  const Row row("quarry-30w", "VR601 wiper open");
  CHECK(std::abs(row.now("offset")) > 0.7 * 33.0);
  CHECK(std::abs(row.now("upper")) < nothing_v);
}

}  // namespace idlepoint::tests
