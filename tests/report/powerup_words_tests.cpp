// Oracle: docs/commands.md, "powerup": which words belong to which numbers; numbers made by hand
// here, or read from the answer that the words are about.
#include "answers/asked.hpp"
#include "answers/powerup.hpp"
#include "report/json_powerup.hpp"
#include "report/powerup_words.hpp"
#include "report/says.hpp"
#include "report/text_powerup.hpp"

namespace idlepoint::tests {
namespace {

const report::Page plan_page{.width = 1000};

answers::Powerup planned(const answers::Setup& setup, const answers::PowerupAsked& asked = {}) {
  return settled(answers::ask_powerup(setup, asked));
}

// A follower whose base rests on a divider: 12 V, 5.4 V or so at the emitter.
const std::string follower = R"(stage "Follower"
rail vcc 12V resistance=1R tolerance=2%
resistor R1 vcc b 10k tolerance=1%
resistor R2 b gnd 10k tolerance=1%
npn Q1 c=vcc b=b e=out type=any-npn
resistor R3 out gnd 470R tolerance=1%
load LS1 out gnd 1k
reading rest volts out gnd
type npn any-npn saturation_current=10fA gain=200
)";

}  // namespace

TEST_CASE("Words of a step follow its numbers alone", "[report][identity]") {
  auto plan = planned(drawn(follower), {.steps = {0.1, 0.5, 1.0}, .lamp = {}});
  auto step = plan.steps.back();
  CHECK(report::what_it_tells(plan, step) == "working rails");
  step.tells.may_set = false;
  step.tells.takes_hold = true;
  CHECK(report::what_it_tells(plan, step) == "the loop has taken hold");
  step.tells.takes_hold = false;
  step.tells.idle_stands = false;
  CHECK(report::what_it_tells(plan, step) == "no idle yet is right");
  step.tells.output_belongs = false;
  CHECK(report::what_it_tells(plan, step) == "nothing yet is right");
  step.tells.output = answers::OutputPlace::at_low_rail;
  CHECK(report::what_it_tells(plan, step) == "at the rail, and right so");
  // At a tenth of 12 V the base has 0.6 V and the transistor carries next to nothing.
  CHECK(report::what_it_tells(plan, plan.steps.front()) == "at the rail, and right so");
}

TEST_CASE("A plan without a trimmer says so and still has its limits", "[report][identity]") {
  const auto plan = planned(drawn(follower), {.steps = {1.0}, .lamp = {}});
  const auto text = report::text_of(plan, plan_page);
  CHECK(says(text, "no `adjust` statement"));
  CHECK(says(text, "No loudspeaker"));
  CHECK(says(text, "--lamp 60W"));
  const auto& above = plan.steps[0].switch_off[0].above;
  REQUIRE(above.has_value());
  CHECK(says(text, report::limit_in_words(above->limit, answers::ReadingUnit::volt)));
  CHECK(says(text, report::behind_limit(plan, 0, *above)));
}

TEST_CASE("The lamp is said to be assumed where its mains was, and what it shows stands in both",
          "[report][identity]") {
  const auto plan = planned(
      drawn(follower),
      {.steps = {1.0}, .lamp = answers::SeriesLamp{.rated_w = 15.0, .mains_assumed = true}});
  const auto text = report::text_of(plan, plan_page);
  const auto json = report::json_of(plan);
  CHECK(says(text, "230 V assumed"));
  for (const auto& shows : plan.lamp->sound) {
    const auto words = report::lamp_in_words(*plan.lamp, shows);
    CHECK(says(text, words));
    CHECK(says(json, words));
  }
}

TEST_CASE("A limit under a millivolt is written in tenths of one", "[report][identity]") {
  CHECK(report::limit_in_words(0.84e-3, answers::ReadingUnit::volt) == "0.8 mV");
  CHECK(report::limit_in_words(59e-3, answers::ReadingUnit::volt) == "59 mV");
  CHECK(report::limit_in_words(0.85e-3, answers::ReadingUnit::ampere) == "850 uA");
}

}  // namespace idlepoint::tests
