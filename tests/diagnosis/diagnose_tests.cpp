// Oracle: readings of a stage solved with a known fault in it, which the diagnosis is not told;
// conservation of probability; common practice of the trade, no source, where said.
#include <algorithm>
#include <numeric>

#include "answers/assumed_spreads.hpp"
#include "diagnosis/diagnosed.hpp"
#include "diagnosis/trial.hpp"

namespace idlepoint::tests {
namespace {

using answers::Diagnosis;
using answers::Suspect;

double total(const Diagnosis& diagnosis) {
  double sum = 0.0;
  for (const Suspect& one : diagnosis.ranking) sum += one.probability;
  return sum;
}

/// Two dividers that have nothing to do with one another.
const std::string dividers =
    "stage \"Two dividers\"\n"
    "rail vp +10V resistance=0R\n"
    "resistor R1 vp one 1k tolerance=1%\n"
    "resistor R2 one two 1k tolerance=1%\n"
    "resistor R3 two gnd 1k tolerance=1%\n"
    "resistor R4 vp three 1k tolerance=1%\n"
    "resistor R5 three four 1k tolerance=1%\n"
    "resistor R6 four gnd 1k tolerance=1%\n"
    "meter error=0.1% floor=1mV\n"
    "reading one volts one gnd\n"
    "reading two volts two gnd\n"
    "reading three volts three gnd\n"
    "reading four volts four gnd\n";

TEST_CASE("The odds of all suspects add to one, and the best comes first") {
  const auto diagnosis = diagnosed(drawn(dividers), {"one=10.0V", "two=10.0V"});
  CHECK_THAT(total(diagnosis), WithinAbs(1.0, 1e-9));
  CHECK(std::is_sorted(
      diagnosis.ranking.begin(), diagnosis.ranking.end(), [](const Suspect& a, const Suspect& b) {
        return a.probability > b.probability;
      }));
}

TEST_CASE("A sound divider is called healthy, an open one is found") {
  const auto sound = drawn(dividers);
  const auto healthy = diagnosed(sound, {"one=6.66V", "two=3.34V", "three=6.67V", "four=3.33V"});
  CHECK(healthy.ranking.front().kind == Suspect::Kind::healthy);
  CHECK(healthy.healthy_chance > 0.05);
  const auto open = diagnosed(sound, {"one=10.0V", "two=0.0V", "three=6.67V", "four=3.33V"});
  CHECK(open.ranking.front().fault == "R2 open");
  CHECK(open.ranking.front().probability > 0.9);
  CHECK(open.healthy_chance < 1e-6);
}

TEST_CASE("The next measurement is one that tells the two suspects left apart") {
  // R3 open and R1 shorted both lift `one` to the rail; `two` is 10 V or 5 V then.
  const auto diagnosis = diagnosed(drawn(dividers), {"one=10.0V"});
  REQUIRE(!diagnosis.next.empty());
  const auto& suspect = suspect_of(diagnosis, "R3 open");
  CHECK(suspect.probability < 0.9);
  CHECK(diagnosis.next.front().bits > 0.5);
}

TEST_CASE("Two faults in two dividers are found as a pair") {
  const auto diagnosis =
      diagnosed(drawn(dividers), {"one=10.0V", "two=0.0V", "three=0.0V", "four=0.0V"});
  CHECK(diagnosis.pairs_tried);
  const auto& first = diagnosis.ranking.front();
  CAPTURE(first.fault);
  CHECK(first.fault.find("R2 open") != std::string::npos);
  CHECK(first.fault.find("R4 open") != std::string::npos);
}

TEST_CASE("A reading that no cause explains beside the others is pointed out") {
  // Neither divider can stand above its rail.
  const auto diagnosis =
      diagnosed(drawn(dividers), {"one=6.67V", "two=3.33V", "three=14.2V", "four=3.33V"});
  REQUIRE(diagnosis.contradicted.size() == 1);
  CHECK(diagnosis.contradicted.front() == 2);
}

TEST_CASE("Known faults come first, or in a group that no reading tells apart", "[heavy]") {
  const std::vector<std::pair<const char*, std::vector<const char*>>> stages = {
      {"quarry-30w.stage",
       {"R611 open", "Q605 open", "Q603 short c-e", "D601 open", "VR601 wiper open"}},
      {"spinney-45w.stage", {"Q607 short c-e", "Q604 open", "R608 open", "Q603 open"}},
      {"bramble-8w.stage", {"TH701 open"}},
      {"tarn-70w.stage", {"VR801 open a"}}};
  for (const auto& [stage, faults] : stages) {
    const auto sound = demo(stage);
    for (const char* fault : faults) {
      const auto diagnosis = diagnosed({sound, readings_with(sound, fault), {}, {}});
      CAPTURE(stage, fault, diagnosis.ranking.front().fault);
      const auto& found = suspect_of(diagnosis, fault);
      const auto place = &found - diagnosis.ranking.data();
      CHECK(place < 3);
    }
  }
}

TEST_CASE("A fault is named however far from the middle the parts of the copy stand", "[heavy]") {
  struct Case {
    const char* stage;
    const char* suspect;
    const char* size;
  };
  const std::vector<Case> cases = {{"tarn-70w.stage", "R816 open", ""},
                                   {"wherry-25w.stage", "C607 short", ""},
                                   {"quarry-30w.stage", "Q602 leaks c-e", " 1k"}};
  for (const auto& [stage, suspect, size] : cases) {
    const std::string fault = std::string(suspect) + size;
    const auto sound = demo(stage);
    for (std::uint64_t number = 1; number <= 5; ++number) {
      const auto diagnosis = diagnosed({sound, drawn_readings(sound, fault, number), {}, {}});
      CAPTURE(stage, fault, number, diagnosis.ranking.front().fault);
      const auto& found = suspect_of(diagnosis, suspect);
      CHECK(found.probability > 0.03);
    }
  }
}

/// Of a sound stage drawn from its tolerances: its own readings, then one after another points that
/// stand within microvolts of one another and millivolts from where nominal parts would put them.
std::vector<circuit::BenchReading> hanging_together(const circuit::CheckedCircuit& stage) {
  constexpr std::uint64_t seed = 12;
  constexpr std::uint64_t number = 15;
  auto measurements = own_readings(*stage);
  for (const auto& point : taken(stage,
                                 {"volts e1 t1=0V",
                                  "volts e2 t2=0V",
                                  "volts e_hi gnd=0V",
                                  "volts z gnd=0V",
                                  "volts fb out=0V",
                                  "volts fz gnd=0V",
                                  "volts fb gnd=0V"})) {
    measurements.push_back(point.measurement);
  }
  std::vector<circuit::BenchReading> readings;
  for (const auto& one : measurements) readings.push_back(*take(stage, one, seed, number));
  return readings;
}

double share_of_sound(const Diagnosis& diagnosis) {
  const auto sound = std::ranges::find(diagnosis.ranking, Suspect::Kind::healthy, &Suspect::kind);
  REQUIRE(sound != diagnosis.ranking.end());
  return sound->probability;
}

TEST_CASE("The same readings give the same odds one at a time and all at once", "[heavy]") {
  // Bayes' rule does not ask in which order, or in how many lots, the readings came.
  auto sound = demo("corrie-70w.stage");
  sound.stage = answers::with_assumed_spreads(sound.stage).stage;
  const auto readings = hanging_together(sound.stage);
  const auto go_on = [](double) { return true; };
  auto begun = readings;
  begun.resize(own_readings(*sound.stage).size());
  auto made = answers::Diagnosing::make({sound, begun, {}, {}});
  auto& diagnosing = std::get<answers::Diagnosing>(made);
  auto one_at_a_time = diagnosing.answer(go_on);
  for (std::size_t k = begun.size(); k < readings.size(); ++k) {
    diagnosing.add(readings[k]);
    one_at_a_time = diagnosing.answer(go_on);
  }
  const auto at_once = diagnosed({sound, readings, {}, {}});
  CHECK_THAT(share_of_sound(one_at_a_time), WithinAbs(share_of_sound(at_once), 0.015));
}

TEST_CASE("What both channels have in common is no fault of one", "[heavy]") {
  // Rails a fifth low in both: the drawing says 8 %, the working channel reads just the same.
  const auto sound = demo("quarry-30w.stage");
  auto low = sound;
  low.conditions.rails = 0.8;
  const auto readings = readings_with(low, "");
  const auto alone = diagnosed({sound, readings, {}, {}});
  const auto beside = diagnosed({sound, readings, readings, {}});
  const auto of = [](const Diagnosis& diagnosis) {
    return suspect_of(diagnosis, "healthy").probability;
  };
  CHECK(beside.ranking.front().kind == Suspect::Kind::healthy);
  CHECK(of(beside) > of(alone));
}

TEST_CASE("A reading that jumps speaks for a contact", "[heavy]") {
  const auto sound = demo("quarry-30w.stage");
  const std::string fault = "VR602 wiper open";
  auto still = readings_with(sound, fault);
  auto moving = still;
  moving.front().firmness = circuit::Firmness::jumps;
  moving.front().value.reset();
  const auto odds = [&](const std::vector<circuit::BenchReading>& readings) {
    return suspect_of(diagnosed({sound, {readings.front()}, {}, {}}), "VR602 wiper open")
        .probability;
  };
  const auto diagnosis = diagnosed({sound, {moving.front()}, {}, {}});
  const auto contact = [](const Suspect& one) {
    return one.fault.find("open") != std::string::npos;
  };
  REQUIRE(odds(moving) > 0.0);
  CHECK(contact(
      *std::find_if(diagnosis.ranking.begin(), diagnosis.ranking.end(), [](const Suspect& one) {
        return one.kind == Suspect::Kind::fault;
      })));
}

}  // namespace
}  // namespace idlepoint::tests
