// Oracle: what benches report of faults in bias parts, as patterns: which
// readings rise, fall, stay, or equal each other. Common practice of the trade, without a source;
// no digit is asserted.
//
// Where a fault is met with the current limited, 47 ohms stand in each rail lead, as careful hands
// bring a repaired channel up.
#include "fault/rows.hpp"

namespace idlepoint::tests {

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

TEST_CASE("A diode string that opens: forced through the drivers, none left with one shorted",
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

TEST_CASE("A trimmer in a spreader's lower leg: lifted it fails cold, the spread near one junction",
          "[fault][trade]") {
  const Row lifted("spinney-45w", "VR601 open a");
  const Row leg("spinney-45w", "R609 open");
  CHECK(std::abs(lifted.now("both")) < nothing_v);
  CHECK(lifted.now("spread") < 1.0);
  CHECK(alike(lifted.now("spread"), leg.now("spread"), 0.05));
  // With the spare leg on the wiper the whole track is left.
  const Row tied("spinney-45w", "VR601 wiper open");
  CHECK(tied.now("both") < 0.1 * tied.was("both"));
  CHECK(tied.now("spread") > lifted.now("spread"));
}

TEST_CASE("A trimmer in series with the diodes: lifted it forces the current through the drivers",
          "[fault][trade]") {
  const Row teasel = limited("teasel-8w", "VR301 wiper open");
  CHECK(teasel.times("both") > 5.0);
  CHECK(teasel.now("spread") > teasel.was("spread"));
  for (const auto& [stage, fault] : {std::pair{"wherry-25w", "VR602 open a"},
                                     std::pair{"quarry-30w", "VR602 open a"},
                                     std::pair{"sedge-28w", "VR901 open a"}}) {
    CAPTURE(stage);
    const Row row = limited(stage, fault);
    CHECK(row.times("upper") > 5.0);
    CHECK(alike(row.now("upper"), row.now("lower"), 0.15));
    CHECK(row.now("spread") > row.was("spread"));
  }
}

TEST_CASE("A shorted bias diode of a capacitor-coupled stage: no idle, the joint stays",
          "[fault][trade]") {
  const Row row("wherry-25w", "D601 short");
  CHECK(std::abs(row.now("upper")) < nothing_v);
  CHECK(std::abs(row.now("lower")) < nothing_v);
  CHECK_THAT(row.moved("spread"), WithinAbs(-0.7, 0.15));
  CHECK(std::abs(row.moved("joint")) < 0.1);
}

TEST_CASE("One junction of a moulded stack shorted: no idle, and no place of the trimmer gives it",
          "[fault][trade]") {
  const auto fewer = [](const circuit::CheckedCircuit& stage) {
    return stage.edited([](circuit::Circuit& circuit) {
      auto& stack = circuit.at(*circuit::find_part(circuit, "D901"));
      std::get<circuit::DiodeDetails>(stack.details).junctions = 2;
    });
  };
  const auto sound = cold_demo("sedge-28w");
  const Row row(sound, fewer(sound));
  CHECK(std::abs(row.now("both")) < nothing_v);
  CHECK_THAT(row.moved("spread"), WithinAbs(-0.65, 0.15));
  auto setup = demo("sedge-28w.stage");
  setup.stage = fewer(sound);
  CHECK_FALSE(preset_of(setup).adjustments.front().reached);
}

TEST_CASE("A sensor off its heat sink: right when cold, far too much warm, or no rest at all",
          "[fault][trade]") {
  const auto sound = demo("spinney-45w.stage", when_warm);
  const auto loose = with_fault(sound, "Q604 loose");
  const Row cold(sound.stage, loose.stage);
  CHECK(alike(cold.now("both"), cold.was("both"), 1e-3));
  const auto outcome = answers::ask_readings(loose);
  const auto* warm = std::get_if<answers::Readings>(&outcome);
  if (warm == nullptr) {
    CHECK(std::holds_alternative<answers::ThermalStory>(outcome));
  } else {
    CHECK(warm->readings.front().value > 1.5 * readings_of(sound).readings.front().value);
  }
}

TEST_CASE("MOSFETs with 0.3 V less threshold: far more idle at the same trimmer",
          "[fault][trade]") {
  const auto sound = cold_demo("tarn-70w");
  const auto lower = sound.edited([](circuit::Circuit& circuit) {
    for (auto& type : circuit.types) {
      if (auto* law = std::get_if<devices::FetData>(&type.law)) law->threshold_voltage_v -= 0.3;
    }
  });
  const Row row(sound, lower);
  CHECK(row.times("idle") > 2.0);
  CHECK(alike(row.now("spread"), row.was("spread"), 0.02));
}

TEST_CASE("A shorted thermistor of a germanium stage: that half is cut off and the joint leaves it",
          "[fault][trade]") {
  const Row row("bramble-8w", "TH702 short");
  CHECK(row.times("lower") < 0.5);
  CHECK(row.now("mid") > row.was("mid"));
}

}  // namespace idlepoint::tests
