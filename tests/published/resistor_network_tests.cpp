// Oracle: resistor networks solved by hand (divider, bridge, star and delta), and the balance of
// power: what sources deliver, parts turn to heat.
#include "published/solve_text.hpp"

namespace idlepoint::tests {
namespace {

/// The power that enters all parts; sources that deliver count negative.
double power_into_parts_w(const Solved& stage) {
  double sum_w = 0.0;
  for (std::size_t i = 0; i < stage.circuit->parts.size(); ++i) {
    sum_w += stage.state.part(circuit::PartId{i}).power_w;
  }
  return sum_w;
}

/// What the rails' own resistances turn to heat.
double power_in_rails_w(const Solved& stage) {
  double sum_w = 0.0;
  for (std::size_t i = 0; i < stage.circuit->rails.size(); ++i) {
    const double delivered_a = stage.state.rail(circuit::RailId{i}).delivered_a;
    sum_w += delivered_a * delivered_a * stage.circuit->rails.at(i).resistance_ohm;
  }
  return sum_w;
}

}  // namespace

TEST_CASE("A divider divides, its rail's resistance included", "[solve][analytic]") {
  const Solved stage = solved(R"(
rail vcc 10V resistance=1R
resistor R1 vcc out 2k2
resistor R2 out gnd 1k
)");
  const double current_a = 10.0 / 3201.0;
  CHECK_THAT(stage("volts out gnd"), WithinRel(1000.0 * current_a, 1e-8));
  CHECK_THAT(stage("volts vcc gnd"), WithinRel(3200.0 * current_a, 1e-8));
  CHECK_THAT(stage("amps vcc"), WithinRel(current_a, 1e-8));
  CHECK_THAT(stage("amps R2"), WithinRel(current_a, 1e-8));
  CHECK_THAT(stage("watts R1"), WithinRel(2200.0 * current_a * current_a, 1e-8));
}

TEST_CASE("A bridge out of balance follows its open-circuit voltage and inner resistance",
          "[solve][analytic]") {
  const Solved stage = solved(R"(
hold V1 top gnd 12V
resistor R1 top left 1k
resistor R2 left gnd 2k2
resistor R3 top right 1k5
resistor R4 right gnd 2k7
resistor R5 left right 330R
)");
  const double open_v = 12.0 * (2.2 / 3.2 - 2.7 / 4.2);
  const double inner_ohm = 1000.0 * 2.2 / 3.2 + 1500.0 * 2.7 / 4.2;
  CHECK_THAT(stage("amps R5"), WithinRel(open_v / (inner_ohm + 330.0), 1e-7));
  CHECK_THAT(stage("volts left right"), WithinRel(open_v * 330.0 / (inner_ohm + 330.0), 1e-7));
}

TEST_CASE("No current crosses a bridge in balance", "[solve][analytic]") {
  const Solved stage = solved(R"(
hold V1 top gnd 12V
resistor R1 top left 1k
resistor R2 left gnd 2k2
resistor R3 top right 10k
resistor R4 right gnd 22k
resistor R5 left right 330R
)");
  CHECK_THAT(stage("amps R5"), WithinAbs(0.0, 1e-11));
}

TEST_CASE("A delta and the star of equal outward resistance draw the same currents",
          "[solve][analytic]") {
  const std::string outside = R"(
rail vpos +15V resistance=0R2
rail vneg -9V resistance=0R1
resistor R1 vpos a 100R
resistor R2 b vneg 220R
resistor R3 c gnd 47R
)";
  // A corner of the star is the product of the delta's two sides that meet there over their sum.
  const Solved delta = solved(outside + R"(
resistor RAB a b 1k
resistor RBC b c 2k
resistor RCA c a 3k
)");
  const Solved star = solved(outside + R"(
resistor RA a middle 500R
resistor RB b middle 333.333333333333333R
resistor RC c middle 1k
)");
  for (const char* probe :
       {"amps R1", "amps R2", "amps R3", "volts a b", "amps vpos", "amps vneg"}) {
    CAPTURE(probe);
    CHECK_THAT(star(probe), WithinRel(delta(probe), 1e-7));
  }
}

TEST_CASE("A trimmer is two resistors whose sum does not move", "[solve][analytic]") {
  const double travel = GENERATE(0.0, 0.1, 0.5, 0.93, 1.0);
  const Solved stage = solved(fmt::format(
      R"(
hold V1 top gnd 10V
trimmer VR1 top wiper gnd 1k at={}% end_resistance=5R wiper_resistance=20R
resistor R1 wiper gnd 10k
)",
      100.0 * travel));
  const double upper_ohm = 1000.0 * travel + 5.0;
  const double lower_ohm = 1000.0 * (1.0 - travel) + 5.0;
  const double open_v = 10.0 * lower_ohm / 1010.0;
  const double inner_ohm = upper_ohm * lower_ohm / 1010.0 + 20.0;
  CHECK_THAT(stage("volts wiper gnd"), WithinRel(open_v * 1e4 / (1e4 + inner_ohm), 1e-7));
}

TEST_CASE("What the rails deliver the resistors turn to heat", "[solve][identity]") {
  const Solved stage = solved(R"(
rail vpos +42V resistance=0R3
rail vneg -38V resistance=0R7
resistor R1 vpos a 1k
resistor R2 a b 47R
resistor R3 b vneg 680R
trimmer VR1 a w b 220R at=30%
resistor R4 w gnd 10R
lamp LP1 b gnd voltage=24V power=5W
)");
  CHECK_THAT(stage.state.total_power_w(),
             WithinRel(power_into_parts_w(stage) + power_in_rails_w(stage), 1e-9));
  CHECK(stage.state.total_power_w() > 1.0);
  for (std::size_t i = 0; i < stage.circuit->parts.size(); ++i) {
    CHECK(stage.state.part(circuit::PartId{i}).power_w >= 0.0);
  }
}

TEST_CASE("Held voltages and feeds deliver what the resistors turn to heat", "[solve][identity]") {
  const Solved stage = solved(R"(
hold V1 top gnd 9V
hold V2 x y 3V
feed I1 20mA from=gnd into=x compliance=none
resistor R1 top x 330R
resistor R2 y gnd 470R
resistor R3 x gnd 1k
)");
  CHECK_THAT(power_into_parts_w(stage), WithinAbs(0.0, 1e-10));
  CHECK(stage("watts I1") < 0.0);
  CHECK(stage("watts R1") + stage("watts R2") + stage("watts R3") > 0.05);
}

}  // namespace idlepoint::tests
