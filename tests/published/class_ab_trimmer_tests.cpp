// Oracle: worked examples of [Bell2008] on bias by diodes and a small resistor, set here by its
// trimmer as on the bench. The book's rounding makes the resistor a difference of base-emitter
// drops: 6 to 10 %; with the same laws it closes in a formula.
#include <cmath>

#include "published/solve_text.hpp"

namespace idlepoint::tests {
// Example 19.6: 20 mA in 4.7 ohm emitter resistors, 22.4 mA of driver current, two diodes. Printed:
// VB = 1.59 V, RB between 8.4 and 8.95 ohm as the emitter resistors are rounded.
TEST_CASE("The trimmer of a coupled class-AB stage ends at the printed few ohms",
          "[solve][published]") {
  const solve::Adjusted stage = adjusted(published("class-ab-emitter-resistors"));
  const Solved at{stage.circuit, stage.state};

  CHECK_THAT(at("volts e_hi out"), WithinRel(94e-3, 1e-6));
  CHECK_THAT(at("volts b_hi b_lo"), WithinAbs(1.59, 0.005));
  CHECK_THAT(at("volts out gnd"), WithinRel(16.0, 0.01));
  CHECK_THAT(track_ohm(stage, 0), WithinRel(8.675, 0.06));
}

TEST_CASE("The trimmer between bases drops the emitter resistors' volts and the diodes' shortfall",
          "[solve][published]") {
  const solve::Adjusted stage = adjusted(published("class-ab-emitter-resistors"));
  const double string_a = 22.4e-3 - 20e-3 / 51.0;  // The lower base supplies the rest.
  const double wanted_v = 0.188 + 2.0 * room_thermal_v * std::log(22.4e-3 / string_a);
  CHECK_THAT(track_ohm(stage, 0), WithinRel(wanted_v / string_a, 1e-6));
}

// Example 19.9: four base-emitter drops and 188 mV make 2.988 V, four diodes drop all but the 188
// mV; RB about 49.5 ohm.
TEST_CASE("A Darlington stage needs four drops and the emitter resistors' volts of spread",
          "[solve][published]") {
  const solve::Adjusted stage = adjusted(published("class-ab-darlingtons"));
  const Solved at{stage.circuit, stage.state};

  CHECK_THAT(at("volts b_hi b_lo"), WithinRel(2.988, 1e-6));
  CHECK_THAT(at("volts out gnd"), WithinAbs(0.0, 1e-6));
  CHECK_THAT(track_ohm(stage, 0), WithinRel(49.5, 0.05));

  const double string_a = 3.8e-3 - 20e-3 / 51.0 / 51.0;
  const double wanted_v = 0.188 + 4.0 * room_thermal_v * std::log(3.8e-3 / string_a);
  CHECK_THAT(track_ohm(stage, 0), WithinRel(wanted_v / string_a, 1e-5));
}

TEST_CASE("With the trimmer of a class-AB stage at zero ohms the standing current is least",
          "[solve][published]") {
  const auto name = GENERATE("class-ab-emitter-resistors", "class-ab-darlingtons");
  double last_v = 0.0;
  for (const char* position : {"VR1 at 0%", "VR1 at 20%", "VR1 at 60%", "VR1 at 100%"}) {
    const double idle_v = solved(changed(published(name), position))("volts e_hi e_lo");
    CAPTURE(name, position);
    CHECK(idle_v > last_v);
    last_v = idle_v;
  }
}

}  // namespace idlepoint::tests
