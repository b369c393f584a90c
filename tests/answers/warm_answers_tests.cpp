// Oracle: docs/language.md for the practice stage (37.4 % cold, 35.4 % warm, loop gain 0.28);
// each cold figure beside a warm one is a cold solve's own.
#include "answers/asked.hpp"
#include "solve/solve_stage.hpp"

namespace idlepoint::tests {
namespace {

double cold_read(const circuit::CheckedCircuit& stage, const circuit::Probe& probe) {
  const auto outcome = solve::solve_cold(stage);
  REQUIRE(std::holds_alternative<solve::OperatingPoint>(outcome));
  return std::get<solve::OperatingPoint>(outcome).read(*stage, probe);
}

}  // namespace

TEST_CASE("Warm readings stand beside those of the first cold moment", "[answers][identity]") {
  const auto answer = readings_of(drawn(practice_stage(), when_warm));
  CHECK(answer.state.conditions().heat == solve::HeatState::warm);
  REQUIRE(answer.cold.has_value());
  REQUIRE(answer.cold->readings.size() == answer.readings.size());
  CHECK_THAT(answer.cold->readings[0].value,
             WithinRel(cold_read(answer.stage, answer.readings[0].probe), 1e-12));
  // Its idle climbs as it warms.
  CHECK(answer.readings[0].value > 1.1 * answer.cold->readings[0].value);
  CHECK_FALSE(readings_of(drawn(practice_stage())).cold.has_value());
  CHECK_FALSE(readings_of(drawn(practice_stage())).thermal.has_value());
}

TEST_CASE(
    "The practice stage is set at 35.4 % for its warm target, and reads less just switched on",
    "[answers][published]") {
  const auto preset = preset_of(drawn(practice_stage(), when_warm));
  const auto& answer = preset.adjustments[0];
  CHECK(answer.reached);
  CHECK_THAT(answer.travel, WithinAbs(0.354, 0.0005));
  CHECK_THAT(preset.thermal->loop_gain, WithinAbs(0.285, 0.006));
  REQUIRE(answer.cold_value.has_value());
  const auto& probe = preset.stage->at(answer.reading).probe;
  CHECK_THAT(*answer.cold_value, WithinRel(cold_read(preset.stage, probe), 1e-9));
  CHECK(*answer.cold_value < 20e-3);
  CHECK(answer.states.safe_end == circuit::TrackEnd::a);
}

TEST_CASE("Ends and lifted wiper of a warm preset are those of the first cold moment",
          "[answers][identity]") {
  const auto preset = preset_of(drawn(practice_stage(), when_warm));
  const auto& answer = preset.adjustments[0];
  const auto& probe = preset.stage->at(answer.reading).probe;
  for (const double end : {0.0, 1.0}) {
    const auto moved = preset.stage.edited([&](circuit::Circuit& circuit) {
      std::get<circuit::TrimmerDetails>(circuit.at(answer.trimmer).details).travel = end;
    });
    const auto& state = end == 0.0 ? answer.states.at_a : answer.states.at_b;
    CHECK_THAT(*state.reading, WithinRel(cold_read(moved, probe), 1e-9));
  }
}

TEST_CASE("A target that only a stage without a rest would meet is thermal trouble",
          "[answers][identity]") {
  std::string text = practice_stage();
  text.replace(text.find("reads 22mV"), 10, "reads 600mV");
  REQUIRE(preset_of(drawn(text)).adjustments[0].reached);  // cold there is such a place
  const auto story = troubled(answers::ask_preset(drawn(text, when_warm)));
  CHECK(story.at_preset);
  CHECK(story.trouble.junction_k > 423.15);
}

TEST_CASE("A check of a stage that finds no rest keeps its complaints and tells of the heat",
          "[answers][identity]") {
  const auto check = check_of(with_fault(
      drawn(practice_stage() + "printed volts e_hi e_lo 1V\n", when_warm), "VR2 at 60%"));
  REQUIRE(check.trouble.has_value());
  CHECK(check.printed.size() == 1);
  CHECK(check.state->conditions().heat == solve::HeatState::cold);
  CHECK_FALSE(answers::is_good(check));
}

TEST_CASE("Printed volts are compared warm where the stage can heat", "[answers][identity]") {
  const auto check = check_of(drawn(practice_stage() + "printed volts e_hi e_lo 1V\n", when_warm));
  const auto answer = readings_of(drawn(practice_stage(), when_warm));
  REQUIRE(check.printed.size() == 1);
  CHECK_THAT(check.printed[0].calculated_v, WithinRel(answer.readings[0].value, 1e-9));
}

TEST_CASE("A meter across a warm stage shows the warm reading", "[answers][identity]") {
  const auto answer = readings_of(drawn(practice_stage(), when_warm));
  CHECK_THAT(*answer.readings[0].as_metered, WithinRel(answer.readings[0].value, 1e-4));
}

}  // namespace idlepoint::tests
