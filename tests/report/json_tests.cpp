// Oracle: the keys, types and meanings that docs/commands.md promises; energy balance inside one
// object; text and JSON of one answer beside each other.
#include <cmath>
#include <nlohmann/json.hpp>

#include "answers/asked.hpp"
#include "report/json_check.hpp"
#include "report/json_preset.hpp"
#include "report/json_readings.hpp"
#include "report/json_thermal.hpp"

namespace idlepoint::tests {
namespace {

using Json = nlohmann::ordered_json;
using Keys = std::vector<std::string>;

Json json_of(const answers::Readings& answer) { return Json::parse(report::json_of(answer)); }
Json json_of(const answers::Preset& answer) { return Json::parse(report::json_of(answer)); }
Json json_of(const answers::Check& answer) { return Json::parse(report::json_of(answer)); }

Keys keys_of(const Json& object) {
  Keys keys;
  for (const auto& [key, value] : object.items()) keys.push_back(key);
  return keys;
}

const char* const demo_file = "quarry-30w.stage";

}  // namespace

TEST_CASE("The readings object has the promised keys in a fixed order", "[report][identity]") {
  const Json object = json_of(readings_of(demo(demo_file)));
  CHECK(keys_of(object) == Keys{"command",
                                "stage",
                                "conditions",
                                "solver",
                                "nodes",
                                "rails",
                                "total_power_W",
                                "parts",
                                "heatsinks",
                                "readings",
                                "hot",
                                "warnings"});
  CHECK(object["command"] == "readings");
  CHECK(object["conditions"]["state"] == "cold");
  CHECK(object["conditions"]["rails"] == 1.0);
  CHECK(object["conditions"]["ambient_C"] == 25.0);
  CHECK(keys_of(object["solver"]) == Keys{"iterations", "strategy", "residual_A"});
  CHECK(object["nodes"]["gnd"] == 0.0);
  CHECK(keys_of(object["rails"]["vpos"]) == Keys{"volts", "current_A", "power_W"});
}

TEST_CASE("Parts are given by two terminals or by the names of their legs", "[report][identity]") {
  const Json parts = json_of(readings_of(demo(demo_file)))["parts"];
  CHECK(keys_of(parts["R611"]) ==
        Keys{"kind", "current_A", "voltage_V", "power_W", "over_stressed"});
  CHECK(keys_of(parts["Q606"]["currents_A"]) == Keys{"c", "b", "e"});
  CHECK(keys_of(parts["VR601"]["currents_A"]) == Keys{"a", "wiper", "b"});
  CHECK(parts["Q606"]["kind"] == "npn");
  CHECK(parts["Q606"]["conduction"] == "active");
  CHECK(parts["D601"]["conduction"] == "forward");
  CHECK(parts["Q606"]["junction_C"] == 25.0);
}

TEST_CASE("A resistor's current and voltage in JSON obey Ohm's law", "[report][analytic]") {
  const Json parts = json_of(readings_of(demo(demo_file)))["parts"];
  const double volts = parts["R611"]["voltage_V"];
  const double amps = parts["R611"]["current_A"];
  CHECK_THAT(amps, WithinRel(volts / 0.47, 1e-9));
  CHECK_THAT(double{parts["R611"]["power_W"]}, WithinRel(volts * amps, 1e-6));
}

TEST_CASE("Rail powers in JSON add up to the total", "[report][identity]") {
  const Json object = json_of(readings_of(demo(demo_file)));
  const double sum =
      double{object["rails"]["vpos"]["power_W"]} + double{object["rails"]["vneg"]["power_W"]};
  CHECK_THAT(double{object["total_power_W"]}, WithinRel(sum, 1e-12));
}

TEST_CASE("Readings carry unit, limit and the meter's own figure", "[report][identity]") {
  const Json readings = json_of(readings_of(demo(demo_file)))["readings"];
  CHECK(keys_of(readings[0]) == Keys{"name",
                                     "probe",
                                     "value",
                                     "unit",
                                     "low",
                                     "high",
                                     "band",
                                     "within_limit",
                                     "as_metered",
                                     "as_metered_low",
                                     "as_metered_high"});
  CHECK(readings[0]["unit"] == "V");
  CHECK(readings[0]["within_limit"].is_boolean());
  for (const Json& reading : readings) {
    CHECK(reading["value"].is_number());
    if (reading["unit"] != "V") CHECK_FALSE(reading.contains("as_metered"));
    if (reading["name"] == "spread") CHECK(reading["within_limit"].is_null());
  }
}

TEST_CASE("A lifted lead is no point of the JSON, and a removed part stays with no current",
          "[report][identity]") {
  const Json lifted = json_of(readings_of(with_fault(demo(demo_file), "Q606 open b")));
  const Json sound = json_of(readings_of(demo(demo_file)));
  CHECK(keys_of(lifted["nodes"]) == keys_of(sound["nodes"]));
  CHECK(lifted["conditions"]["changes"] == Json::array({"Q606 open b"}));

  const Json removed = json_of(readings_of(with_fault(demo(demo_file), "Q606 absent")));
  CHECK(removed["parts"]["Q606"]["currents_A"]["c"] == 0.0);
  CHECK(removed["parts"]["Q606"]["conduction"] == "off");
}

TEST_CASE("The preset object has the promised keys", "[report][identity]") {
  const Json object = json_of(preset_of(demo(demo_file)));
  CHECK(keys_of(object) ==
        Keys{"command", "stage", "conditions", "adjustments", "order", "readings", "warnings"});
  REQUIRE(object["adjustments"].size() == 2);
  for (const char* key : {"trimmer",
                          "reading",
                          "target",
                          "reached",
                          "position",
                          "other_positions",
                          "resistance_a_ohm",
                          "resistance_b_ohm",
                          "slope_per_percent",
                          "safe_end",
                          "reading_at_a",
                          "reading_at_b",
                          "wiper_open"}) {
    CAPTURE(key);
    CHECK(object["adjustments"][0].contains(key));
  }
  const Json& idle = object["adjustments"][1];
  CHECK(idle["trimmer"] == "VR602");
  CHECK(idle["safe_end"] == "a");
  CHECK(keys_of(idle["wiper_open"]) == Keys{"reading", "total_power_W", "hazard"});
  CHECK(idle["wiper_open"]["hazard"] == true);
  CHECK(idle.contains("wiper_open_tied"));
  CHECK(idle.contains("wiper_open_free"));
}

TEST_CASE("A slope a turn is given where the turns are", "[report][analytic]") {
  const std::string track = R"(stage "Turns"
rail vcc 10V resistance=0R
resistor R1 vcc a 100R
trimmer VR1 a gnd 1k spare=free turns=20
reading drop volts vcc a
adjust VR1 until drop reads 2V
)";
  const Json turned = json_of(preset_of(drawn(track)))["adjustments"][0];
  CHECK_THAT(double{turned["slope_per_turn"]},
             WithinRel(5.0 * double{turned["slope_per_percent"]}, 1e-12));
  CHECK_FALSE(json_of(preset_of(demo(demo_file)))["adjustments"][0].contains("slope_per_turn"));
}

TEST_CASE("A refused preset is an empty list and a reason", "[report][identity]") {
  const Json object = json_of(preset_of(demo(demo_file, {.rails = 0.5})));
  CHECK(object["adjustments"].empty());
  CHECK(object["refused"].is_string());
}

TEST_CASE("The check object has the promised keys", "[report][identity]") {
  const Json object = json_of(check_of(drawn(R"(stage "Printed"
rail vcc 10V resistance=0R
resistor R1 vcc mid 10k
resistor R2 mid gnd 10k
printed volts mid gnd 7V
npn Q1 c=vcc b=gnd e=mid type=small
type npn small saturation_current=10fA gain=250
)")));
  REQUIRE(object["printed"].size() == 1);
  CHECK(object["printed"][0]["a"] == "mid");
  CHECK(object["printed"][0]["b"] == "gnd");
  CHECK_THAT(double{object["printed"][0]["off_V"]}, WithinRel(-2.0, 1e-4));
  REQUIRE(object["complaints"].size() == 1);
  CHECK(keys_of(object["complaints"][0]) ==
        Keys{"kind", "severity", "file", "line", "column", "text", "try"});
  CHECK(object["complaints"][0]["severity"] == "warning");
  CHECK(object["blanks"].empty());
  CHECK(object["warnings"].is_array());
}

TEST_CASE("Warm objects have the keys of the heat, cold ones have none of them",
          "[report][identity]") {
  const Json readings = json_of(readings_of(demo(demo_file, when_warm)));
  const Json preset = json_of(preset_of(demo(demo_file, when_warm)));
  const Json cold = json_of(readings_of(demo(demo_file)));
  for (const char* key :
       {"cold_readings", "thermal_loop_gain", "thermal_margin", "reaches_one_at", "too_hot_at"}) {
    CAPTURE(key);
    CHECK(readings.contains(key));
    CHECK(preset.contains(key));
    CHECK_FALSE(cold.contains(key));
  }
  CHECK(readings["conditions"]["state"] == "warm");
  CHECK(keys_of(readings["reaches_one_at"]) == Keys{"ambient_C", "rails", "positions"});
  CHECK(keys_of(readings["too_hot_at"]["positions"]) == Keys{"VR601", "VR602"});
  CHECK(preset["adjustments"][1]["cold_value"].is_number());
  CHECK(readings["cold_readings"] == cold["readings"]);
}

TEST_CASE("Where there is no rest the object tells of that in the place of readings",
          "[report][identity]") {
  const auto setup = with_fault(drawn(practice_stage(), when_warm), "VR2 at 60%");
  const Json object =
      Json::parse(report::json_of("readings", troubled(answers::ask_readings(setup))));
  CHECK(keys_of(object) == Keys{"command", "stage", "conditions", "runaway", "warnings"});
  CHECK(keys_of(object["runaway"]) ==
        Keys{"kind", "part", "heatsink_C", "junction_C", "loop_gain", "advice"});
  CHECK(object["runaway"]["kind"] == "too hot");
}

}  // namespace idlepoint::tests
