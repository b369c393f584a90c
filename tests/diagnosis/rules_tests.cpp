// Oracle: five rules by which technicians read a stage's volts, common practice, no source. They
// stand nowhere in the program: they have to come out of the odds. Readings are given as rough
// figures ("about"), so that their pattern speaks and not their digits.
#include <algorithm>

#include "diagnosis/diagnosed.hpp"

namespace idlepoint::tests {
namespace {

using answers::Diagnosis;
using answers::Suspect;
using Parts = std::vector<std::string>;

/// What a fault of that pattern shows, roughly.
Diagnosis roughly(const answers::Setup& sound, const std::string& fault) {
  auto readings = readings_with(sound, fault);
  for (auto& reading : readings) {
    const double least = 2.0 * sound.stage->meter.floor_v;
    if (std::abs(*reading.value) > least) reading.firmness = circuit::Firmness::about;
  }
  return diagnosed({sound, readings, {}, {}});
}

/// The odds of all suspects that name one of these parts or points in any of their words.
double odds_of(const Diagnosis& diagnosis, const Parts& parts) {
  double sum = 0.0;
  for (const Suspect& one : diagnosis.ranking) {
    std::vector<std::string> words = one.equivalent;
    words.push_back(one.fault);
    const bool names_one = std::any_of(words.begin(), words.end(), [&](const std::string& word) {
      return std::any_of(parts.begin(), parts.end(), [&](const std::string& part) {
        return (word + " ").find(part) != std::string::npos;
      });
    });
    if (names_one) sum += one.probability;
  }
  return sum;
}

/// The ranking in one line, for a check that fails.
std::string told(const Diagnosis& diagnosis) {
  std::string text;
  for (const Suspect& one : diagnosis.ranking) {
    if (one.probability < 0.01) break;
    text += one.fault + " " + std::to_string(one.probability) + "; ";
  }
  return text;
}

const Parts input_and_voltage_amplifier = {"Q601",
                                           "Q602",
                                           "Q603",
                                           "R600",
                                           "R601",
                                           "R602",
                                           "R603",
                                           "R604",
                                           "R605",
                                           "R615",
                                           "C601",
                                           "C602",
                                           "c1",
                                           "base"};
const Parts output_half = {"Q605 ", "Q606 ", "Q607 ", "Q608 ", "R610 ", "R611 ", "R612 "};
const Parts bias_string = {"Q604", "R608", "R609", "VR601", "b4", "x4"};

/// A stage brought up with a safety resistor in each rail lead.
answers::Setup with_safety_resistors(answers::Setup setup) {
  setup.stage = setup.stage.edited([](circuit::Circuit& circuit) {
    for (auto& rail : circuit.rails) rail.resistance_ohm = 47.0;
  });
  return setup;
}

TEST_CASE("The output at a rail is the front end's doing, with or without current", "[heavy]") {
  const auto sound = with_safety_resistors(demo("spinney-45w.stage"));
  for (const char* forced : {"Q603 short c-e", "Q602 open", "R604 open"}) {
    CAPTURE(forced);
    CHECK(odds_of(roughly(sound, forced), input_and_voltage_amplifier) > 0.8);
  }
  for (const char* absent : {"Q603 open", "Q601 open", "R603 open"}) {
    const auto diagnosis = roughly(sound, absent);
    CAPTURE(absent, told(diagnosis));
    // Without its rail the front end is as dead.
    CHECK(odds_of(diagnosis, input_and_voltage_amplifier) + odds_of(diagnosis, {"F601", "psu_p"}) >
          0.8);
    // Drive that is absent is not drive that is forced.
    CHECK(odds_of(diagnosis, {"Q603 short c-e", "Q602 open ", "R604 open"}) < 0.05);
  }
}

TEST_CASE("Large equal millivolts in mid supply: a wide spread is the string, none a short",
          "[heavy]") {
  const auto sound = with_safety_resistors(demo("spinney-45w.stage"));
  for (const char* open : {"Q604 open", "R608 open"}) {
    CAPTURE(open);
    CHECK(odds_of(roughly(sound, open), bias_string) > 0.8);
  }
  for (const char* shorted : {"Q607 short c-e", "Q605 short c-e"}) {
    const auto diagnosis = roughly(sound, shorted);
    CAPTURE(shorted);
    CHECK(odds_of(diagnosis, output_half) > 0.8);
    CHECK(odds_of(diagnosis, bias_string) < 0.1);
  }
}

TEST_CASE("Unequal rail currents mean a way to the chassis", "[heavy]") {
  const auto sound = with_safety_resistors(demo("spinney-45w.stage"));
  auto readings = readings_with(sound, "bridge vpos gnd");
  const auto faulty = with_fault(sound, "bridge vpos gnd");
  for (const char* rail : {"F601", "F602"}) {
    const circuit::Probe amps = circuit::AmpsThrough{*circuit::find_part(*sound.stage, rail)};
    const auto shown = readings_of(faulty).state.read(*faulty.stage, amps);
    readings.push_back({rail, amps, shown, circuit::Firmness::about});
  }
  CHECK(odds_of(diagnosed({sound, readings, {}, {}}), {"gnd"}) > 0.8);
}

TEST_CASE("Unequal millivolts, both sane, are unequal ohms, and volts across one mean it is open",
          "[heavy]") {
  const auto sound = demo("spinney-45w.stage");
  CHECK(odds_of(roughly(sound, "R611 is 1R"), {"R611 is", "R612 is"}) > 0.8);
  CHECK(odds_of(roughly(sound, "R611 open"), {"R611 open"}) > 0.5);
  CHECK(odds_of(roughly(sound, "R612 open"), {"R612 open"}) > 0.5);
}

TEST_CASE("One reads and the other does not, the loudspeaker on: a leak into it", "[heavy]") {
  const auto sound = demo("wherry-25w.stage", {.load_connected = true});
  const auto diagnosis = diagnosed({sound, readings_with(sound, "C607 leaks 100R"), {}, {}});
  CAPTURE(told(diagnosis));
  CHECK(odds_of(diagnosis, {"C607", "LS601", "gnd"}) > 0.8);
}

TEST_CASE("Nothing across either: a low spread is a short, a right one a part open", "[heavy]") {
  const auto sound = demo("spinney-45w.stage");
  CHECK(odds_of(roughly(sound, "Q604 short c-e"), bias_string) > 0.8);
  for (const char* open : {"Q607 open", "R612 open", "Q606 open"}) {
    const auto diagnosis = roughly(sound, open);
    CAPTURE(open);
    CHECK(odds_of(diagnosis, output_half) > 0.8);
    CHECK(odds_of(diagnosis, bias_string) < 0.1);
  }
}

}  // namespace
}  // namespace idlepoint::tests
