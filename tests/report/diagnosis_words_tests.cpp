// Oracle: docs/commands.md, "diagnose", and arithmetic: what a diagnosis filled by hand must say,
// and must not.
#include <cmath>

#include "answers/asked.hpp"
#include "answers/diagnose.hpp"
#include "language/bench_reading_text.hpp"
#include "report/diagnosis_words.hpp"
#include "report/json_diagnosis.hpp"
#include "report/measure_words.hpp"
#include "report/says.hpp"
#include "report/text_diagnosis.hpp"

namespace idlepoint::tests {
namespace {

using answers::Diagnosis;
using answers::Expected;
using answers::Suspect;

const report::Page wide_page{.width = 1000, .bold = false};

circuit::BenchReading read(const circuit::Circuit& circuit, const std::string& text) {
  return required(language::read_bench_reading(text, circuit));
}

circuit::Edit fault(const circuit::Circuit& circuit, const std::string& text) {
  return required(language::read_fault(text, circuit));
}

Expected near(double value, double by) { return {value, value - by, value + by, false}; }

Suspect suspect(const circuit::Circuit& circuit, const std::string& text, double probability) {
  Suspect made;
  made.edits = {fault(circuit, text)};
  made.fault = text;
  made.probability = probability;
  made.chi_square = 2.0;
  return made;
}

Suspect special(Suspect::Kind kind, const std::string& name, double probability) {
  Suspect made;
  made.kind = kind;
  made.fault = name;
  made.probability = probability;
  made.chi_square = 400.0;
  return made;
}

// One lower half silent: two suspects that the readings do not part, and what parts them.
Diagnosis silent_half() {
  const auto setup = demo("quarry-30w.stage");
  const circuit::Circuit& circuit = *setup.stage;
  Diagnosis made{.stage = setup.stage,
                 .readings = {},
                 .sound_channel = {},
                 .good = {},
                 .ranking = {},
                 .ruled_out = {},
                 .contradicted = {},
                 .next = {},
                 .assumed = {},
                 .changes = {},
                 .warnings = {}};
  for (const char* text : {"upper=0.0mV", "spread=about 2.15V", "ohms hi lo=1k9", "rail=jumps"}) {
    made.readings.push_back(read(circuit, text));
  }
  made.healthy_chance = 1e-9;
  made.healthy_chi_square = 400.0;
  made.ranking = {suspect(circuit, "Q605 open", 0.6),
                  suspect(circuit, "R610 open", 0.3),
                  special(Suspect::Kind::none_of_these, "none of these", 0.06),
                  suspect(circuit, "D601 short", 0.03),
                  special(Suspect::Kind::healthy, "healthy", 0.001)};
  made.ranking[0].equivalent = {"Q605 open e", "Q605 open b"};
  made.ranking[3].expected = {near(0.0, 1e-4), near(1.5, 0.1), near(1900.0, 90.0), near(0.01, 0.0)};
  made.ranking[3].unexplained = {1};
  made.ranking[3].chi_square = 40.0;
  made.ruled_out = {{"Q607 open", 0, near(1.0e-3, 2e-4)}};
  answers::NextMeasurement next;
  next.measurement = read(circuit, "volts e5 out=1V").measurement;
  next.reading = "volts e5 out";
  next.bits = 0.9;
  next.under = {{0, near(0.0, 1e-5)}, {1, near(-8.0, 1.0)}, {3, near(0.0, 1e-5)}};
  made.next = {next};
  made.tried = 400;
  return made;
}

}  // namespace

TEST_CASE("Odds in words are never farther than a third from the figure", "[report][identity]") {
  for (double probability = 0.0125; probability < 0.97; probability += 0.01) {
    const std::string words = report::odds_in_words(probability);
    CAPTURE(probability, words);
    int of = 0;
    int in = 0;
    REQUIRE(std::sscanf(words.c_str(), "about %d in %d", &of, &in) == 2);
    CHECK(std::abs(static_cast<double>(of) / in - probability) <= probability / 3.0 + 0.0051);
  }
  CHECK(report::odds_in_words(0.999) == "more than 99 in 100");
  CHECK(report::odds_in_words(0.004) == "under 1 in 100");
  CHECK(report::odds_in_words(0.6) == "about 6 in 10");
}

TEST_CASE("What was read is said back as it was understood", "[report][identity]") {
  const auto text = report::text_of(silent_half(), {}, {"Channel right."}, wide_page);
  CHECK(says(text,
             "Channel right.\n"
             "You read: upper 0.0 mV, spread about 2.15 V, ohms hi lo 1k9, rail jumps.\n"));
  CHECK(says(text, "A sound amplifier does not read like this (less than once in 10000)."));
}

TEST_CASE("Suspects stand with their odds, and with what no meter tells from them",
          "[report][identity]") {
  const auto list = report::suspects_list(silent_half(), wide_page);
  CHECK(says(list, "  about 6 in 10         Q605 open\n"));
  CHECK(says(list, "no meter tells it from Q605 open e and Q605 open b\n"));
  CHECK(says(list, "  about 1 in 20         none of these\n"));
  CHECK(says(list, "does not explain `spread`: it would be 1.50 V ("));
  CHECK(says(list, "Your readings do not tell Q605 open and R610 open apart; the next one does."));
  CHECK_FALSE(says(list, "no fault at all"));
}

TEST_CASE("Two suspects that the next measurement leaves together are not called parted by it",
          "[report][identity]") {
  auto diagnosis = silent_half();
  diagnosis.next.front().under[1].expected = near(0.0, 1e-5);
  const auto list = report::suspects_list(diagnosis, wide_page);
  CHECK(says(list, "Your readings do not tell Q605 open and R610 open apart."));
  CHECK_FALSE(says(list, "the next one does"));
  diagnosis.ranking[1].chi_square = 9.0;
  CHECK_FALSE(says(report::suspects_list(diagnosis, wide_page), "do not tell"));
}

TEST_CASE("The next measurement says what each suspect would show, alike ones in one line",
          "[report][identity]") {
  const auto text = report::next_section(silent_half(), 0, wide_page);
  CHECK(says(text, "MEASURE NEXT, this decides most: volts e5 to out (across R610)\n"));
  CHECK(says(text, "Q605 open, or D601 short\n"));
  CHECK(says(text, "-8.00 V (-9.0 to -7.0)   R610 open\n"));
  CHECK(says(text, "anything else"));
  CHECK(says(text,
             "hook the black lead on out (collector of Q607). Power on, one hand, the probe taped "
             "to its tip: touch e5 (emitter of Q605) once."));
}

TEST_CASE("A point beside a rail is not touched with a probe", "[report][identity]") {
  const auto stage = demo("quarry-30w.stage").stage;
  const auto how = [&](const std::string& text) {
    return report::how_to_take(*stage, read(*stage, text).measurement);
  };
  // Q604: collector on vpos, base on hi.
  CHECK(says(how("volts hi gnd=1V"), "hook both leads on"));
  CHECK(says(how("volts hi gnd=1V"), "the base of Q604 is a leg away from vpos"));
  // Q605's base is lo; Q603, whose collector it is, has its emitter on vneg.
  CHECK(says(how("volts lo e5=1V"),
             "this is the base of Q605, and on Q603 the next leg is vneg, and a slip"));
  CHECK_FALSE(says(how("volts e5 out=1V"), "hard on"));
  CHECK(says(how("ohms hi lo=1k"), "Plug out, reservoirs discharged and measured"));
  CHECK(says(how("diode hi x1=0.6V"), "Red lead on hi (base of Q604), black on x1"));
  // 1 mA through 2k2 is 2.2 V.
  CHECK(says(how("amps R606=5mA"), "read the volts across R606; 2.20 V there is 1 mA"));
  CHECK(says(how("amps vpos=5mA"), "in place of the fuse of vpos"));
}

TEST_CASE("Where nothing fits it is said, with the nearest two, and to look for oscillation",
          "[report][identity]") {
  auto diagnosis = silent_half();
  std::swap(diagnosis.ranking[0], diagnosis.ranking[2]);
  CHECK(report::fits_nothing(diagnosis));
  const auto text = report::text_of(diagnosis, {}, {}, wide_page);
  CHECK(says(text,
             "No cause in the list fits; the nearest two are R610 open and Q605 open. Look for "
             "oscillation before you change parts"));
  CHECK_FALSE(says(text, "Before you change anything"));
  CHECK_FALSE(report::fits_nothing(silent_half()));
}

TEST_CASE("A sound stage is not called broken", "[report][identity]") {
  auto diagnosis = silent_half();
  diagnosis.healthy_chance = 0.6;
  CHECK(says(report::sound_in_words(diagnosis), "may well read like this: about 6 in 10"));
  diagnosis.healthy_chance = 0.002;
  CHECK(says(report::sound_in_words(diagnosis), "about once in 500"));
}

TEST_CASE("What is ruled out, what contradicts and what is intermittent is said with its reading",
          "[report][identity]") {
  auto diagnosis = silent_half();
  CHECK(report::ruled_out_in_words(diagnosis) ==
        "Not it: Q607 open (`upper` would show 1.0 mV (0.8 to 1.2)).");
  CHECK(report::contradictions(diagnosis).empty());
  CHECK(report::intermittents(diagnosis).empty());
  diagnosis.contradicted = {1};
  CHECK(
      says(report::contradictions(diagnosis).at(0), "spread about 2.15 V is explained by nothing"));
  diagnosis.ranking[0].answers_to = answers::AnswersTo::tapping;
  diagnosis.ranking[0].swings = {{0, 0.0, 7.2e-3}};
  diagnosis.ranking[1].answers_to = answers::AnswersTo::warmth;
  CHECK(report::intermittents(diagnosis).size() == 1);
  diagnosis.ranking[1].swings = {{0, 0.0, 7.2e-3}};
  const auto sentences = report::intermittents(diagnosis);
  REQUIRE(sentences.size() == 2);
  CHECK(
      says(sentences[0],
           "tap with an insulated rod; as the contact is made `upper` goes from 0.0 mV to 7.2 mV"));
  CHECK(says(sentences[1], "freezer spray"));
}

TEST_CASE("The first suspect is proved before it is changed", "[report][identity]") {
  const auto before = report::before_it_is_changed(silent_half());
  REQUIRE(before.size() == 2);
  CHECK(says(before[0], "reheat the joints of Q605, then take it out"));
  CHECK(says(before[1], "idlepoint fault "));
  CHECK(says(before[1], " \"Q605 open\""));
}

TEST_CASE("The JSON of a diagnosis has the keys of the guide", "[report][identity]") {
  const auto json = report::json_of(silent_half(), {}, {});
  for (const char* key : {"\"command\": \"diagnose\"",
                          "\"healthy_fit\": 400.0",
                          "\"ranking\"",
                          "\"fault\": \"Q605 open\"",
                          "\"equivalent\"",
                          "\"probability\": 0.6",
                          "\"chi_square\": 2.0",
                          "\"unexplained\"",
                          "\"next\"",
                          "\"reading\": \"volts e5 out\"",
                          "\"bits\": 0.9",
                          "\"R610 open\": -8.0"}) {
    CAPTURE(key);
    CHECK(says(json, key));
  }
}

}  // namespace idlepoint::tests
