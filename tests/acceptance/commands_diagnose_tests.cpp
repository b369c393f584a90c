// Oracle: docs/commands.md, "diagnose": what is refused, what a job says, how --ask goes on. The
// readings are those that `readings --fault` gives of the same stage.
#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "acceptance/commands_program.hpp"
#include "report/says.hpp"

namespace idlepoint::tests {
namespace {

const std::string quarry = "diagnose netlists/quarry-30w.stage ";
const std::string job = "diagnose netlists/quarry-bench.job ";
// The lower half is silent: its driver Q605, or R610 behind it, is open.
const std::string silent_half = "upper=0.0mV lower=0.0mV offset=12mV spread=2.15V rail=11mA ";

nlohmann::json json_of(const std::string& words, const std::string& input = "") {
  const Ran ran = run_program(words + " --json", input);
  CAPTURE(ran.err);
  REQUIRE(ran.status == 0);
  return nlohmann::json::parse(ran.out);
}

/// The faults of the first line of a ranking.
std::vector<std::string> first_of(const nlohmann::json& answer) {
  const auto& first = answer.at("ranking").at(0);
  std::vector<std::string> faults = first.at("equivalent");
  faults.insert(faults.begin(), first.at("fault").get<std::string>());
  return faults;
}

bool has(const std::vector<std::string>& faults, const std::string& fault) {
  return std::find(faults.begin(), faults.end(), fault) != faults.end();
}

}  // namespace

TEST_CASE("diagnose refuses what says no reading, and says how it is written",
          "[acceptance][identity]") {
  struct Refused {
    const char* words;
    const char* says;
  };
  for (const Refused& one : {Refused{"", "wants what was read"},
                             Refused{"uper=1mV", "Nearest known: `upper`"},
                             Refused{"upper=OL", "Take a higher range"},
                             Refused{"upper=1mV upper=2mV", "given twice"},
                             Refused{"upper=1mV --good Q66", "Nearest known"},
                             Refused{"upper=1mV --sound lower=3mV", "has no such reading"},
                             Refused{"upper=1mV --channel left", "Only a job file"}}) {
    CAPTURE(one.words);
    const Ran ran = run_program(quarry + one.words);
    CHECK(ran.status == 2);
    CHECK(ran.out.empty());
    CHECK(says(ran.err, one.says));
  }
  CHECK(says(run_program(job + "--channel rihgt").err, "`right`"));
  CHECK(run_program("diagnose - --ask", "").status == 2);
}

TEST_CASE("A silent lower half is laid to its driver or to the resistor behind it",
          "[acceptance][identity]") {
  const auto answer = json_of(quarry + silent_half);
  const auto first = first_of(answer);
  CHECK((has(first, "Q605 open") || has(first, "R610 open")));
  CHECK(answer.at("healthy_chance") < 1e-4);
  CHECK(answer.at("next").size() >= 1);
}

TEST_CASE("The measurement that parts the two decides, typed into --ask",
          "[acceptance][identity]") {
  // R610 open: its 47R no longer holds e5, which hangs some 9.3 V off the output, with the meter
  // across it.
  const auto open = json_of(quarry + silent_half + "--ask", "volts e5 out=-9.3V\nstop\n");
  CHECK(has(first_of(open), "R610 open"));
  const auto whole = json_of(quarry + silent_half + "--ask", "volts e5 out=0.0mV\nstop\n");
  CHECK_FALSE(has(first_of(whole), "R610 open"));
}

TEST_CASE("Asked on, it speaks, passes over an empty line, and ends with the input",
          "[acceptance][identity]") {
  const Ran ran = run_program(quarry + silent_half + "--ask", "\nsteady\n");
  CHECK(ran.status == 0);
  CHECK(says(ran.out, "MEASURE NEXT: "));
  CHECK(says(ran.out, "Stopped here."));
  CHECK(says(ran.err, "`steady` is nothing that a meter shows"));
}

TEST_CASE("A job's channels: the one asked for, and the other as the one that works",
          "[acceptance][identity]") {
  const Ran left = run_program(job);
  CHECK(says(left.out, "Channel left, the first of the job with readings"));
  CHECK(says(left.out, "Channel right is not taken as one that works"));
  const auto right = json_of(job + "--channel right");
  CHECK(has(first_of(right), "Q605 open"));
  CHECK(right.at("sound_channel").size() == 5);
  CHECK(right.at("good") == nlohmann::json::array({"Q607"}));
}

TEST_CASE("A part tested good is not accused", "[acceptance][identity]") {
  const auto answer = json_of(quarry + silent_half + "--good Q605");
  const auto first = first_of(answer);
  CHECK(has(first, "R610 open"));
  CHECK_FALSE(has(first, "Q605 open"));
}

}  // namespace idlepoint::tests
