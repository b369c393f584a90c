// Oracle: Ohm's law on dividers; every figure beside a stage solved anew with its rails and
// trimmers so; docs/commands.md, "powerup", for the rules.
#include <algorithm>

#include "answers/asked.hpp"
#include "answers/powerup.hpp"
#include "solve/solve_stage.hpp"

namespace idlepoint::tests {
namespace {

using answers::Powerup;
using answers::PowerupAsked;

Powerup powerup_of(const answers::Setup& setup, const PowerupAsked& asked = {}) {
  return settled(answers::ask_powerup(setup, asked));
}

// 10 V over 100R and 300R.
const std::string uneven_divider = R"(stage "Divider"
rail vcc 10V resistance=0R tolerance=2%
resistor R1 vcc out 100R tolerance=1%
resistor R2 out gnd 300R tolerance=1%
reading mid volts out gnd
reading draw amps vcc
)";

double read_anew(const circuit::CheckedCircuit& stage, const circuit::Probe& probe, double rails) {
  solve::Conditions conditions;
  conditions.rails = rails;
  const auto outcome = solve::solve_cold(stage, conditions);
  const auto* state = std::get_if<solve::OperatingPoint>(&outcome);
  REQUIRE(state != nullptr);
  return answers::in_own_unit(state->read(*stage, probe), answers::unit_of(probe));
}

// Without its rails' tolerance, the only one it has: bands are those of the meter then, and quick.
std::string exact_practice_stage() {
  std::string text = practice_stage();
  const std::string tolerance = " tolerance=8%";
  for (auto at = text.find(tolerance); at != std::string::npos; at = text.find(tolerance)) {
    text.erase(at, tolerance.size());
  }
  return text;
}

const Powerup& practice() {
  static const Powerup powerup =
      powerup_of(drawn(exact_practice_stage()), {.steps = {0.5, 1.0}, .lamp = {}});
  return powerup;
}

}  // namespace

TEST_CASE("A divider follows its rail in proportion at every step", "[answers][analytic]") {
  const auto powerup = powerup_of(drawn(uneven_divider));
  REQUIRE(powerup.steps.size() == 4);
  for (const auto& step : powerup.steps) {
    CAPTURE(step.rails);
    REQUIRE(step.safe_end.has_value());
    CHECK_FALSE(step.preset.has_value());  // nothing to set
    CHECK_THAT(step.safe_end->readings[0].value, WithinRel(7.5 * step.rails, 1e-9));
    CHECK_THAT(step.safe_end->readings[1].value, WithinRel(0.025 * step.rails, 1e-9));
  }
  CHECK(answers::is_good(powerup));
}

TEST_CASE("The limits of a divider lie between its band and its nearest dangerous fault",
          "[answers][analytic]") {
  const auto powerup = powerup_of(drawn(uneven_divider));
  for (const auto& step : powerup.steps) {
    const auto& draw = step.switch_off[1].above;
    REQUIRE(draw.has_value());
    CHECK(draw->limit > step.safe_end->readings[1].band->high);
    CHECK(draw->limit < draw->nearest);
    // R2 short draws 0.1 A, R2 of 150R 0.04 A: more than one and a half times 25 mA.
    CHECK_THAT(draw->nearest, WithinRel(step.rails * 10.0 / 250.0, 1e-6));
    CHECK(powerup.faults[draw->faults.front()].fault == "R2 is 150R");
  }
}

TEST_CASE("Every step reads what the stage reads on such rails, at both places of the trimmer",
          "[answers][identity]") {
  for (const auto& step : practice().steps) {
    for (const auto* at_step : {&step.safe_end, &step.preset}) {
      REQUIRE(at_step->has_value());
      const auto& stage =
          at_step == &step.preset ? practice().places.at_preset : practice().places.at_safe_end;
      for (const auto& reading : (*at_step)->readings) {
        CAPTURE(step.rails, reading.name);
        const double anew = read_anew(stage, reading.probe, step.rails);
        CHECK_THAT(reading.value, WithinAbs(anew, 1e-9 + 1e-6 * std::abs(anew)));
      }
    }
  }
}

TEST_CASE("The trimmer starts where the preset answer calls it safe and ends at the preset",
          "[answers][identity]") {
  const auto preset = preset_of(drawn(exact_practice_stage()));
  const auto& place = practice().places.trimmers.at(0);
  CHECK_THAT(place.preset_travel, WithinAbs(preset.adjustments.at(0).travel, 1e-9));
  REQUIRE(preset.adjustments.at(0).states.safe_end.has_value());
  const bool is_a = *preset.adjustments.at(0).states.safe_end == circuit::TrackEnd::a;
  CHECK(place.safe == (is_a ? answers::SafePlace::end_a : answers::SafePlace::end_b));
  CHECK(place.safe_travel == (is_a ? 0.0 : 1.0));
}

TEST_CASE("No sound stage within its tolerances trips a limit, and the fault named beyond it does",
          "[answers][identity]") {
  std::size_t limits = 0;
  for (const auto& step : practice().steps) {
    for (std::size_t k = 0; k < step.switch_off.size(); ++k) {
      const auto& sides = step.switch_off[k];
      for (const auto* side : {&sides.above, &sides.below}) {
        if (!side->has_value()) continue;
        ++limits;
        const auto& limit = **side;
        const double sign = side == &sides.above ? 1.0 : -1.0;
        for (const auto* at_step : {&step.safe_end, &step.preset}) {
          const auto& reading = (*at_step)->readings[k];
          CAPTURE(step.rails, reading.name, limit.limit);
          const double end = sign > 0.0 ? reading.band->high : reading.band->low;
          CHECK(sign * limit.limit > sign * end);
        }
        const auto& nearest = practice().faults[limit.faults.front()];
        const auto applied = circuit::apply(practice().places.at_safe_end, nearest.edit);
        const auto& faulty = std::get<circuit::CheckedCircuit>(applied);
        const double shows = read_anew(faulty, faulty->readings[k].probe, step.rails);
        CHECK(sign * shows > sign * limit.limit);
        CHECK_THAT(shows, WithinRel(limit.nearest, 1e-6));
      }
    }
  }
  CHECK(limits > 0);
}

TEST_CASE("Nothing may be set below 95 % of the rails", "[answers][identity]") {
  const auto powerup =
      powerup_of(drawn(uneven_divider), {.steps = {0.5, 0.9, 0.95, 1.0}, .lamp = {}});
  std::vector<bool> may_set;
  for (const auto& step : powerup.steps) may_set.push_back(step.tells.may_set);
  CHECK(may_set == std::vector<bool>{false, false, true, true});
}

TEST_CASE("A trimmer set for its reading on low rails reads as told when the full ones arrive",
          "[answers][identity]") {
  REQUIRE_FALSE(practice().set_too_low.empty());
  for (const auto& set : practice().set_too_low) {
    CAPTURE(set.rails, set.reached);
    CHECK(set.rails < 0.95);
    const auto& adjustment = practice().places.trimmers[set.trimmer].adjustment;
    const auto turned = practice().places.at_preset.edited([&](circuit::Circuit& circuit) {
      std::get<circuit::TrimmerDetails>(circuit.at(adjustment.trimmer).details).travel = set.travel;
    });
    const auto& probe = turned->at(adjustment.reading).probe;
    if (set.reached) {
      CHECK_THAT(read_anew(turned, probe, set.rails),
                 WithinAbs(adjustment.target, adjustment.within));
    }
    CHECK_THAT(read_anew(turned, probe, 1.0), WithinRel(*set.at_full_rails, 1e-4));
  }
}

TEST_CASE("Under the lamp a stage takes what the mains gives less what the lamp keeps",
          "[answers][identity]") {
  const auto powerup = powerup_of(drawn(uneven_divider),
                                  {.steps = {1.0}, .lamp = answers::SeriesLamp{.rated_w = 60.0}});
  REQUIRE(powerup.lamp.has_value());
  REQUIRE(powerup.lamp->sound.size() == 1);
  const auto& state = powerup.lamp->sound[0].state;
  // 10 V over 400R on full rails, and as the square of the rails below.
  CHECK_THAT(state.stage_w, WithinRel(0.25 * state.rails * state.rails, 1e-6));
  CHECK_THAT(state.mains_w, WithinRel(state.stage_w + state.lamp_v * state.lamp_a, 1e-9));
}

TEST_CASE("Below 95 % of the rails there is no preset, and the file's places stand",
          "[answers][identity]") {
  const auto powerup =
      powerup_of(drawn(exact_practice_stage(), {.rails = 0.7}), {.steps = {1.0}, .lamp = {}});
  REQUIRE(powerup.no_preset.has_value());
  CHECK_FALSE(answers::is_good(powerup));
  CHECK_THAT(powerup.steps.back().rails, WithinRel(0.7, 1e-12));
  CHECK_FALSE(powerup.steps.back().preset.has_value());
}

}  // namespace idlepoint::tests
