// Oracle: docs/commands.md: at a rail is within 10 % of the distance between the outermost nominal
// rails; ground counts as one. A divider sets the output by hand.
#include "answers/asked.hpp"
#include "answers/at_rail.hpp"

namespace idlepoint::tests {
namespace {

using answers::OutputPlace;

OutputPlace place_of(const std::string& text, const solve::Conditions& conditions = {}) {
  const auto answer = readings_of(drawn(text, conditions));
  return answers::output_place(*answer.stage, answer.state);
}

std::string split_rails(const std::string& output_v) {
  return "stage \"Split\"\nsignal output=out\nrail vpos 30V\nrail vneg -30V\n"
         "resistor R1 vpos vneg 1k\nhold V1 out gnd " +
         output_v + "\nresistor R2 out gnd 1k\n";
}

std::string one_rail(const std::string& output_v) {
  return "stage \"One\"\nsignal output=out\nrail vneg -24V\nresistor R1 vneg gnd 1k\n"
         "hold V1 out gnd " +
         output_v + "\nresistor R2 out gnd 1k\n";
}

}  // namespace

TEST_CASE("Between rails of 30 V the output is at a rail from 24 V on", "[answers][analytic]") {
  CHECK(place_of(split_rails("0V")) == OutputPlace::between);
  CHECK(place_of(split_rails("23.9V")) == OutputPlace::between);
  CHECK(place_of(split_rails("24.1V")) == OutputPlace::at_high_rail);
  CHECK(place_of(split_rails("-23.9V")) == OutputPlace::between);
  CHECK(place_of(split_rails("-24.1V")) == OutputPlace::at_low_rail);
}

TEST_CASE("An output beyond a rail is at it", "[answers][analytic]") {
  CHECK(place_of(split_rails("35V")) == OutputPlace::at_high_rail);
}

TEST_CASE("With one rail ground is the other", "[answers][analytic]") {
  CHECK(place_of(one_rail("-12V")) == OutputPlace::between);
  CHECK(place_of(one_rail("-2.3V")) == OutputPlace::at_high_rail);
  CHECK(place_of(one_rail("-2.5V")) == OutputPlace::between);
  CHECK(place_of(one_rail("-21.7V")) == OutputPlace::at_low_rail);
}

TEST_CASE("The rails are those of the conditions", "[answers][analytic]") {
  CHECK(place_of(split_rails("12.5V"), {.rails = 0.5}) == OutputPlace::at_high_rail);
}

TEST_CASE("Without an output nothing is said of a rail", "[answers][identity]") {
  CHECK(place_of("stage \"No output\"\nrail vcc 10V\nresistor R1 vcc gnd 1k\n") ==
        OutputPlace::unknown);
}

}  // namespace idlepoint::tests
