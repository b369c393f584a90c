// Oracle: what benches report of faults in input stages and supplies, as patterns: which
// readings rise, fall, stay, or equal each other. Common practice of the trade, without a source;
// no digit is asserted.
//
// Where a fault is met with the current limited, 47 ohms stand in each rail lead, as careful hands
// bring a repaired channel up.
#include "fault/rows.hpp"

namespace idlepoint::tests {

TEST_CASE("The bootstrap: a higher resistor or a leak takes current, an open one takes all",
          "[fault][trade]") {
  CHECK(Row("quarry-30w", "R606 is 2k9").times("upper") < 0.8);
  CHECK(Row("quarry-30w", "C604 leaks 10k").times("upper") < 0.8);
  CHECK(Row("spinney-45w", "C605 leaks 10k").times("rail") < 1.0);
  const Row open("quarry-30w", "R606 open");
  CHECK(std::abs(open.now("upper")) < nothing_v);
  CHECK(open.now("rail") < 0.2 * open.was("rail"));
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

TEST_CASE("The bootstrap: a leak starves a small stage, a short hangs the load on the output",
          "[fault][trade]") {
  const Row leak("teasel-8w", "C305 leaks 2k");
  CHECK(leak.times("both") < 0.6);
  CHECK(std::abs(leak.moved("joint")) < 0.2);
  for (const auto& [stage, fault, dead, alive] :
       {std::tuple{"spinney-45w", "C605 short", "lower", "upper"},
        std::tuple{"quarry-30w", "C604 short", "upper", "lower"}}) {
    CAPTURE(stage);
    const Row row(stage, fault);
    CHECK(std::abs(row.now(dead)) < nothing_v);
    CHECK(row.now(alive) > nothing_v);
    CHECK(row.now("spread") < 0.5 * row.was("spread"));
    CHECK(std::abs(row.now("offset")) < 0.3);
  }
}

TEST_CASE("A dried-out bootstrap or decoupling electrolytic shows in no DC reading",
          "[fault][trade]") {
  for (const char* fault : {"C605 open", "C604 open", "C602 open"}) {
    CAPTURE(fault);
    const Row row("spinney-45w", fault);
    for (const char* name : {"both", "offset", "spread", "rail"}) {
      CHECK(alike(row.now(name), row.was(name), 1e-6));
    }
  }
}

TEST_CASE("Either resistor of a bootstrapped load open: the string is dead", "[fault][trade]") {
  for (const char* fault : {"R606 open", "R607 open"}) {
    CAPTURE(fault);
    const Row row("spinney-45w", fault);
    CHECK(std::abs(row.now("both")) < nothing_v);
    CHECK(row.now("spread") < 0.1);
    CHECK(row.now("rail") < 0.2 * row.was("rail"));
    CHECK(std::abs(row.now("offset")) < 0.5);
  }
}

TEST_CASE("A leaky voltage amplifier is corrected by the loop", "[fault][trade]") {
  const Row row("spinney-45w", "Q603 leaks c-e 22k");
  CHECK(std::abs(row.moved("offset")) < 10e-3);
  CHECK(alike(row.now("both"), row.was("both"), 0.05));
}

TEST_CASE("An input transistor that is open leaves the two bases far apart", "[fault][trade]") {
  const Row row("spinney-45w", "Q601 open");
  CHECK(std::abs(row.volts("base") - row.volts("fb")) > 1.0);
  CHECK(std::abs(row.volts_before("base") - row.volts_before("fb")) < 0.1);
}

TEST_CASE("An open input bias resistor: the output at a rail without current", "[fault][trade]") {
  const Row row("spinney-45w", "R601 open");
  CHECK(std::abs(row.now("offset")) > 0.8 * 36.0);
  CHECK(std::abs(row.now("both")) < nothing_v);
}

TEST_CASE("An offset trimmer at its ends moves the output a little either way, the idle hardly",
          "[fault][trade]") {
  const Row one("quarry-30w", "VR601 at 0%");
  const Row other("quarry-30w", "VR601 at 100%");
  CHECK(one.now("offset") * other.now("offset") < 0.0);
  for (const Row* row : {&one, &other}) {
    CHECK(std::abs(row->now("offset")) < 0.2);
    CHECK(alike(row->now("upper"), row->was("upper"), 0.1));
  }
}

TEST_CASE("A leaky input electrolytic lifts the output by its current in the bias resistor",
          "[fault][trade]") {
  const auto leaking = [](double ohm) {
    const auto sound = cold_demo("spinney-45w");
    return Row(sound, sound.edited([ohm](circuit::Circuit& circuit) {
      circuit::Part leak;
      leak.name = "leak";
      leak.leads = {circuit::find_node(circuit, "vpos"), circuit::find_node(circuit, "in_c")};
      leak.value = ohm;
      leak.details = circuit::ResistorDetails{};
      circuit.parts.push_back(leak);
    }));
  };
  // 5 uA in 33k are 0.16 V; dirt on the board is the same, far less.
  const Row leak = leaking(7.2e6);
  CHECK_THAT(leak.moved("offset"), WithinAbs(36.0 / 7.2e6 * 33e3, 0.03));
  const Row dirt = leaking(100e6);
  CHECK(dirt.moved("offset") > 3e-3);
  CHECK(alike(10.0 * dirt.moved("offset"), leaking(10e6).moved("offset"), 0.1));
}

TEST_CASE("The midpoint trimmer of a single supply open lifts the joint to the rail",
          "[fault][trade]") {
  const Row row("wherry-25w", "VR601 open");
  CHECK(row.now("joint") > 0.9 * 58.0);
  CHECK(std::abs(row.now("upper")) < nothing_v);
  CHECK(std::abs(row.now("lower")) < nothing_v);
}

TEST_CASE("A slightly leaky output electrolytic parts the two resistors", "[fault][trade]") {
  const Row row("wherry-25w", "C607 leaks 1k");
  CHECK(row.times("upper") > 1.05);
  CHECK(row.times("lower") < 0.6);
  CHECK(std::abs(row.moved("joint")) < 0.1);
}

TEST_CASE("A rail that is missing: no current through both resistors, none from that rail",
          "[fault][trade]") {
  for (const char* fault : {"rail psu_p lost", "rail psu_n lost"}) {
    CAPTURE(fault);
    const Row row("spinney-45w", fault);
    CHECK(std::abs(row.now("both")) < nothing_v);
    CHECK(row.rail_a(0) < 1e-3);
    CHECK(row.rail_a(1) < 5e-3);
  }
  CHECK(Row("spinney-45w", "rail psu_p lost").now("offset") < -0.9 * 36.0);
  CHECK(Row("quarry-30w", "rail vneg lost").now("offset") > 0.9 * 33.0);
}

TEST_CASE("Ohms in a fuse holder: the rail behind it sags by its current, the idle with it",
          "[fault][trade]") {
  const auto sound = cold_demo("spinney-45w");
  const auto dry = sound.edited([](circuit::Circuit& circuit) {
    auto& fuse = circuit.at(*circuit::find_part(circuit, "F601"));
    std::get<circuit::SeriesDetails>(fuse.details).resistance_ohm = 22.0;
  });
  const Row row(sound, dry);
  CHECK_THAT(row.volts("psu_p") - row.volts("vpos"), WithinRel(22.0 * row.now("rail"), 1e-6));
  CHECK(row.now("both") <= row.was("both"));
}

}  // namespace idlepoint::tests
