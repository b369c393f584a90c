// Oracle: what benches report of faults in outputs and drivers, as patterns: which
// readings rise, fall, stay, or equal each other. Common practice of the trade, without a source;
// no digit is asserted.
//
// Where a fault is met with the current limited, 47 ohms stand in each rail lead, as careful hands
// bring a repaired channel up.
#include "fault/rows.hpp"

namespace idlepoint::tests {

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

TEST_CASE(
    "A shorted output of a quasi-complementary half: both halves carry alike, the spread falls",
    "[fault][trade]") {
  for (const char* fault : {"Q606 short c-e", "Q607 short c-e", "Q604 short c-e"}) {
    CAPTURE(fault);
    const Row row = limited("quarry-30w", fault);
    CHECK(alike(row.now("upper"), row.now("lower"), 0.05));
    CHECK(row.times("upper") > 5.0);
    CHECK(row.now("spread") < 0.7 * row.was("spread"));
    CHECK(alike(row.rail_a(0), row.rail_a(1), 0.05));
  }
}

TEST_CASE("The lower driver shorted reads as the lower output shorted", "[fault][trade]") {
  const Row driver = limited("spinney-45w", "Q606 short c-e");
  const Row output = limited("spinney-45w", "Q608 short c-e");
  CHECK(alike(driver.now("upper"), driver.now("lower"), 0.05));
  CHECK(alike(driver.now("upper"), output.now("upper"), 0.1));
  CHECK(alike(driver.now("offset"), output.now("offset"), 0.2));
  CHECK(driver.now("spread") < 0.7 * driver.was("spread"));
}

TEST_CASE(
    "The upper output, its driver or its resistor open: the bases are driven far up, no current",
    "[fault][trade]") {
  // As far up as it takes to break the lower output's base-emitter junction down.
  for (const char* fault : {"Q607 open", "Q605 open", "R611 open"}) {
    CAPTURE(fault);
    const Row row("spinney-45w", fault);
    CHECK(std::abs(row.now("lower")) < nothing_v);
    CHECK(std::abs(row.now("offset")) < 1.0);
    CHECK(row.volts("hi") > row.volts_before("hi") + 5.0);
    CHECK(row.now("spread") > row.was("spread"));
    CHECK(row.now("rail") < 0.6 * row.was("rail"));
  }
}

TEST_CASE(
    "One of two parallel emitter resistors open: the meter across it reads volts, the lower "
    "pair shares",
    "[fault][trade]") {
  const Row row("cairnfell-120w", "R551 open");
  CHECK(row.now("pair_2") > 10.0 * row.was("pair_2"));
  const Row sound("cairnfell-120w", "R551 is 0R33");
  const double lower_a = row.volts("out") - row.volts("el1");
  const double lower_b = row.volts("out") - row.volts("el2");
  CHECK(alike(lower_a, lower_b, 0.02));
  CHECK(lower_a < sound.volts("out") - sound.volts("el1"));
}

TEST_CASE("Two parallel outputs whose base volts differ by 15 mV share unequally",
          "[fault][trade]") {
  const auto sound = cold_demo("cairnfell-120w");
  const auto unlike = sound.edited([](circuit::Circuit& circuit) {
    auto& part = circuit.at(*circuit::find_part(circuit, "Q517"));
    auto type = circuit.at(*part.type);
    type.name = "unlike";
    auto& law = std::get<devices::BipolarData>(type.law);
    law.saturation_current_a *= std::exp(-15e-3 / 25.7e-3);
    circuit.types.push_back(type);
    part.type = circuit::TypeId{circuit.types.size() - 1};
  });
  const Row row(sound, unlike);
  const double first_v = row.volts("eu1") - row.volts("out");
  const double second_v = row.volts("eu2") - row.volts("out");
  CHECK(first_v > 1.2 * second_v);
  // Base volts and resistor together are the same for both: the one gives what the other has more.
  CHECK(first_v - second_v < 15e-3);
}

TEST_CASE("Less gain in the outputs: a little less idle, more so where it loads a diode string",
          "[fault][trade]") {
  const auto followers = cold_demo("spinney-45w");
  const Row of_followers(followers, faulty(followers, {"Q607 gain 15", "Q608 gain 15"}));
  const auto quasi = cold_demo("quarry-30w");
  const Row of_quasi(quasi, faulty(quasi, {"Q606 gain 15", "Q607 gain 15"}));
  CHECK(of_followers.times("both") < 1.0);
  CHECK(of_followers.times("both") > 0.8);
  CHECK(of_quasi.times("upper") < of_followers.times("both"));
  CHECK(std::abs(of_followers.moved("offset")) < 1e-3);
}

TEST_CASE("The more a driver leaks the more the stage idles", "[fault][trade]") {
  const Row slight("quarry-30w", "Q605 leaks c-e 20k");
  const Row more("quarry-30w", "Q605 leaks c-e 10k");
  CHECK(slight.times("lower") > 1.1);
  CHECK(more.times("lower") > slight.times("lower"));
}

TEST_CASE("A pierced insulator spares the emitter resistors", "[fault][trade]") {
  const Row row = limited("spinney-45w", "bridge psu_p gnd");
  CHECK(row.now("both") < 2.0 * row.was("both"));
  CHECK(std::abs(row.now("offset")) < 3.0);
}

}  // namespace idlepoint::tests
