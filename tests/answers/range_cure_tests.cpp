// Oracle: a string of resistors worked by hand with Ohm's law.
#include "answers/asked.hpp"
#include "answers/range_cure.hpp"

namespace idlepoint::tests {
namespace {

// 10 V over R1, the trimmer and R2; the drop on R2 is to be 2 V.
answers::Preset out_of_range(const std::string& series) {
  return preset_of(drawn("stage \"String\"\nrail vcc 10V resistance=0R\nresistor R1 vcc a " +
                         series +
                         "\ntrimmer VR1 a b 1k spare=tied end_resistance=0R\n"
                         "resistor R2 b gnd 1k\nreading drop volts b gnd\n"
                         "adjust VR1 until drop reads 2V within 10mV\n"));
}

}  // namespace

TEST_CASE("A resistor is proposed from the E24 series that brings the target to mid-track",
          "[answers][analytic]") {
  // 2 V on 1k is 2 mA: 4k beside R2. R1 of 2k2 wants 1k8 of a track of 1k: half way it is 3k5,
  // and of the series 3k6 is the nearest, which leaves 400R of track.
  const auto preset = out_of_range("2k2");
  REQUIRE_FALSE(preset.adjustments[0].reached);
  const auto cures = answers::find_range_cures(preset.stage, {}, preset.stage->adjustments[0]);
  REQUIRE(cures.size() == 2);
  for (const auto& cure : cures) {
    const auto& name = preset.stage->at(cure.resistor).name;
    CAPTURE(name);
    if (name == "R1") {
      CHECK_THAT(cure.to_ohm, WithinRel(3600.0, 1e-12));
      CHECK_THAT(cure.travel, WithinAbs(0.4, 1e-3));
    } else {
      // R2 itself: 2 V of 10 V is a fifth, so R2 = (2k2 + 500)/4 = 675R; 680R leaves 520R.
      CHECK(name == "R2");
      CHECK_THAT(cure.to_ohm, WithinRel(680.0, 1e-12));
      CHECK_THAT(cure.travel, WithinAbs(0.52, 1e-3));
    }
  }
}

TEST_CASE("The slighter change of two is named first", "[answers][analytic]") {
  const auto preset = out_of_range("2k2");
  const auto cures = answers::find_range_cures(preset.stage, {}, preset.stage->adjustments[0]);
  // 1k to 680R is a factor of 1.47, 2k2 to 3k6 one of 1.64.
  REQUIRE(cures.size() == 2);
  CHECK(preset.stage->at(cures[0].resistor).name == "R2");
}

TEST_CASE("No resistor is proposed where none within four times its value does it",
          "[answers][analytic]") {
  // R1 of 100k leaves 99 uA at most; it would have to fall to 3k5, R2 to rise to 25k.
  const auto preset = out_of_range("100k");
  CHECK(answers::find_range_cures(preset.stage, {}, preset.stage->adjustments[0]).empty());
}

}  // namespace idlepoint::tests
