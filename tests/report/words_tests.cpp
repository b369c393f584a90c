// Oracle: stages of other kinds than the usual one; a sentence may only say what their numbers
// show.
#include "answers/asked.hpp"
#include "report/not_settled.hpp"
#include "report/says.hpp"
#include "report/text_check.hpp"
#include "report/text_preset.hpp"
#include "report/text_readings.hpp"
#include "report/trimmer_words.hpp"
#include "report/words.hpp"

namespace idlepoint::tests {
namespace {

const report::Page page{.width = 1000, .bold = false};

std::string potentiometer(const std::string& options) {
  return "stage \"Potentiometer\"\nrail vcc 10V resistance=0R\ntrimmer VR1 vcc w gnd 10k " +
         options +
         "\nresistor R1 w gnd 1G\nreading wiper volts w gnd\n"
         "adjust VR1 until wiper reads 2.5V\n";
}

std::string preset_text(const answers::Setup& setup) {
  return report::text_of(preset_of(setup), page);
}
std::string readings_text(const answers::Setup& setup) {
  return report::text_of(readings_of(setup), page);
}

}  // namespace

TEST_CASE("One emitter resistor and both are told apart with half and whole of the volts",
          "[report][identity]") {
  const std::string both = readings_text(drawn(practice_stage()));
  CHECK(says(both, "is across both R11 (0R22) and R12 (0R22)"));
  const std::string one = readings_text(drawn(practice_stage() + "reading upper volts e_hi out\n"));
  CHECK(says(one, "`upper` is across one 0R22 (R11)"));
  CHECK(says(one, "Across both, R11 and R12"));
  CHECK(says(readings_text(demo("quarry-30w.stage")), "R611 and R613 share no joint"));
}

TEST_CASE("A stage without transistors is told nothing of transistors", "[report][identity]") {
  const std::string text = preset_text(drawn(potentiometer("")));
  CHECK_FALSE(says(text, "transistor"));
  CHECK_FALSE(says(text, "standing current"));
}

TEST_CASE("Where neither end is safe the place is half way", "[report][identity]") {
  const std::string text = preset_text(drawn(potentiometer("")));
  CHECK(says(text, "SAFE PLACE: half way"));
  CHECK_FALSE(says(text, "SAFE END"));
  CHECK(says(text, "vcc [===============|-----] gnd"));
}

TEST_CASE("Rotation is spoken of only where it was entered", "[report][identity]") {
  CHECK(
      says(preset_text(drawn(potentiometer(""))), "Which way VR1 turns clockwise was not entered"));
  CHECK_FALSE(says(preset_text(drawn(potentiometer("clockwise=A"))), "not entered"));
}

TEST_CASE("The safe end of a variable resistor is given in ohms", "[report][identity]") {
  const std::string text = preset_text(drawn(practice_stage()));
  CHECK(says(text, "SAFE END: 0R. Set it there first, power off"));
  CHECK(says(text, "Expect to finish near 374R of the 1k0 track"));
  CHECK(says(text, "0R [=======|-------------] 1k0"));
}

TEST_CASE("An end wired to the wiper's own joint makes a variable resistor", "[report][identity]") {
  const std::string text = preset_text(drawn(R"(stage "Wired as one"
rail vcc 10V resistance=0R
resistor R1 vcc a 100R
trimmer VR1 a gnd gnd 1k
reading drop volts vcc a
adjust VR1 until drop reads 2V
)"));
  CHECK(says(text, "SAFE END: 1k0, the whole track"));
  CHECK(says(text, "spare leg tied to the wiper"));
}

TEST_CASE("A target out of reach names the nearest end", "[report][identity]") {
  std::string text = potentiometer("");
  text.replace(text.find("2.5V"), 4, "12V");
  CHECK(says(preset_text(drawn(text)),
             "Out of reach: the nearest it comes is 10.0 V, at the vcc end"));
}

TEST_CASE("Low rails are refused with their reason", "[report][identity]") {
  const std::string text = preset_text(drawn(practice_stage(), {.rails = 0.5}));
  CHECK(says(text, "No preset."));
  CHECK(says(text, "50 %"));
  CHECK(says(text, "no leave to apply power"));
}

TEST_CASE("Every answer ends with the standing caution", "[report][identity]") {
  const auto setup = drawn(practice_stage());
  for (const auto& text : {readings_text(setup), preset_text(setup)}) {
    CHECK(text.ends_with(report::standing_caution(*setup.stage, page)));
  }
}

TEST_CASE("A meter that pulls a point away is mentioned, another is not", "[report][analytic]") {
  const std::string divider =
      "stage \"Divider\"\nrail vcc 10V\nresistor R1 vcc mid 1M\n"
      "resistor R2 mid gnd 1M\nreading joint volts mid gnd\n";
  CHECK(says(readings_text(drawn(divider)), "a meter of 10M across it pulls it to 4.76 V"));
  CHECK_FALSE(says(readings_text(drawn(divider + "meter input=10G\n")), "pulls it"));
}

TEST_CASE("Changes made to the drawing stand in the first line", "[report][identity]") {
  const auto text = readings_text(with_fault(drawn(practice_stage()), "Q6 gain 30"));
  CHECK(says(text.substr(0, text.find('\n')), "Changed from the drawing: Q6 gain 30"));
}

TEST_CASE("A loop of holds that contradicts itself is named", "[report][identity]") {
  const auto setup = drawn(
      "stage \"Loop\"\nrail vcc 10V\nresistor R1 vcc a 1k\nhold V1 a gnd 5V\n"
      "resistor R2 b gnd 1k\nhold V2 b gnd 3V\n");
  const auto faulty = with_fault(setup, "bridge a b");
  const auto outcome = answers::ask_readings(faulty);
  const auto* story = std::get_if<solve::NotSettled>(&outcome);
  REQUIRE(story != nullptr);
  const std::string text = report::text_of(*faulty.stage, *story, page);
  CHECK(says(text, "this stage has no DC state"));
  CHECK(says(text, "V1"));
  CHECK(says(text, "V2"));
}

}  // namespace idlepoint::tests
