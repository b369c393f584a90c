// Oracle: the exit statuses and keys of docs/commands.md; docs/language.md for the practice stage
// (37.4 % cold, 35.4 % warm, loop gain 0.28, no rest at 60 %).
#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "acceptance/commands_program.hpp"
#include "practice_stage.hpp"
#include "report/says.hpp"

namespace idlepoint::tests {
namespace {

using Catch::Matchers::WithinAbs;
using Json = nlohmann::ordered_json;

Json asked(const std::string& words, int status) {
  const Ran ran = run_program(words + " --json", practice_stage());
  CAPTURE(words, ran.err);
  REQUIRE(ran.status == status);
  return Json::parse(ran.out);
}

}  // namespace

TEST_CASE("The practice stage presets at 35.4 % warm and 37.4 % cold", "[acceptance][published]") {
  const Json warm = asked("preset -", 0);
  CHECK(warm["conditions"]["state"] == "warm");
  CHECK_THAT(double{warm["adjustments"][0]["position"]}, WithinAbs(0.354, 0.0005));
  CHECK_THAT(double{warm["adjustments"][0]["resistance_a_ohm"]}, WithinAbs(354.0, 2.0));
  CHECK_THAT(double{warm["thermal_loop_gain"]}, WithinAbs(0.285, 0.006));
  CHECK(warm["adjustments"][0]["safe_end"] == "a");
  const Json cold = asked("preset - --cold", 0);
  CHECK(cold["conditions"]["state"] == "cold");
  CHECK_THAT(double{cold["adjustments"][0]["position"]}, WithinAbs(0.374, 0.0005));
  CHECK_FALSE(cold.contains("cold_readings"));
  CHECK_FALSE(cold.contains("thermal_loop_gain"));
}

TEST_CASE("The practice stage at 60 % ends with 4 and names what leads",
          "[acceptance][published]") {
  for (const char* command : {"readings", "check"}) {
    const Json object = asked(std::string(command) + " - --at VR2=60%", 4);
    CHECK(object["command"] == command);
    CHECK_FALSE(object.contains("readings"));
    const Json& runaway = object["runaway"];
    CHECK((runaway["part"] == "Q6" || runaway["part"] == "Q7"));
    CHECK(runaway["junction_C"] > 150.0);
    CHECK(runaway["heatsink_C"] < runaway["junction_C"]);
    CHECK(runaway["loop_gain"].is_number());
    CHECK(says(std::string(runaway["advice"]), "VR2 at"));
  }
  const Ran text = run_program("readings - --at VR2=60%", practice_stage());
  CHECK(text.status == 4);
  CHECK(text.err.empty());
  CHECK(says(text.out, "What would hold it"));
  CHECK(run_program("readings - --at VR2=60% --cold", practice_stage()).status <= 1);
}

TEST_CASE("Warm readings have the cold ones beside them, in text and in JSON",
          "[acceptance][identity]") {
  const Json warm = asked("readings -", 0);
  const Json cold = asked("readings - --cold", 0);
  CHECK(warm["conditions"]["state"] == "warm");
  REQUIRE(warm["cold_readings"].size() == warm["readings"].size());
  CHECK(warm["cold_readings"] == cold["readings"]);
  CHECK(warm["heatsinks"]["HS1"]["temperature_C"] > 26.0);
  CHECK(cold["heatsinks"]["HS1"]["temperature_C"] == 25.0);
  CHECK_THAT(double{warm["thermal_margin"]} + double{warm["thermal_loop_gain"]},
             WithinAbs(1.0, 1e-12));
  CHECK(warm["reaches_one_at"]["positions"].contains("VR2"));
  const Ran text = run_program("readings -", practice_stage());
  CHECK(says(text.out, "just switched on"));
  CHECK(says(text.out, "warmed through"));
}

TEST_CASE("A stage in which nothing can heat is answered cold unless warm is asked for",
          "[acceptance][identity]") {
  const std::string plain =
      "stage \"Plain\"\nrail vcc 10V\nresistor R1 vcc gnd 10k\nreading drop volts vcc gnd\n";
  const Json usual = Json::parse(run_program("readings - --json", plain).out);
  CHECK(usual["conditions"]["state"] == "cold");
  CHECK_FALSE(usual.contains("cold_readings"));
  const Json warm = Json::parse(run_program("readings - --json --warm", plain).out);
  CHECK(warm["conditions"]["state"] == "warm");
  CHECK(warm["cold_readings"] == usual["readings"]);
  CHECK(warm["thermal_loop_gain"] == 0.0);
}

}  // namespace idlepoint::tests
