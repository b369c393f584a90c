// Oracle: closed forms of a divider and of Ohm's law; central differences of full solves, by every
// number of an amplifier, cold and warm, readings and trimmer positions.
#include "heat/adjoint_checks.hpp"
#include "warm_text.hpp"

namespace idlepoint::tests {
namespace {

solve::Conditions in(solve::HeatState heat, double rails = 1.0) {
  solve::Conditions conditions;
  conditions.heat = heat;
  conditions.rails = rails;
  return conditions;
}

const char* const divider = R"(
stage "Divider"
rail vpos 12V resistance=0R
resistor R1 vpos m 30k
resistor R2 m gnd 10k
reading m volts m gnd
)";

/// A sensor and outputs of every kind that heats, a thermistor, a rail reading, two adjustments.
const char* const practice = R"(
stage "Practice amplifier with a thermistor"
ambient 30C
rail vpos  +28V resistance=0R15
rail vneg  -28V resistance=0R15
resistor R1 vpos x1 2k2 tempco=200ppm/K
resistor R2 x1 b_hi 2k2
feed     I1 1mA from=vpos into=b_hi compliance=0.3V
hold     V1 b_lo gnd -1.21V
npn      Q3 c=b_hi b=x e=b_lo type=small-npn on=HS1 washer=2K/W coupling=80%
resistor R8 b_hi t 820R
thermistor TH1 t t2 100R on=HS1
trimmer  VR2 t2 x 1k at=22% spare=tied
resistor R9 x b_lo 470R
npn      Q4 c=vpos b=b_hi e=d_hi type=driver-npn on=HS1
pnp      Q5 c=vneg b=b_lo e=d_lo type=driver-pnp on=HS1
resistor R10 d_hi d_lo 150R
npn      Q6 c=vpos b=d_hi e=e_hi type=power-npn on=HS1 washer=0.6K/W
pnp      Q7 c=vneg b=d_lo e=e_lo type=power-pnp on=HS1 washer=0.6K/W
resistor R11 e_hi out 0R22 power=3W
resistor R12 out e_lo 0R22 power=3W
resistor R13 out gnd 47R
n-jfet   Q8 d=j g=gnd s=js type=jf
resistor R14 vpos j 4k7
resistor R15 js gnd 330R
diode    D1 anode=j cathode=z type=zener
resistor R16 z gnd 2k2
trimmer  VR3 j w gnd 22k at=40%
resistor R17 w gnd 100k
heatsink HS1 resistance=1.6K/W
reading  idle    volts e_hi e_lo
reading  offset  volts out gnd
reading  tap     volts w gnd
reading  bias    amps Q4
adjust   VR2 until idle reads 22mV within 1mV
adjust   VR3 until tap reads 4V
type npn small-npn  saturation_current=10fA gain=250 early_voltage=100V junction_to_ambient=200K/W
  base_resistance=40R knee_current=80mA recombination_current=1fA
type npn driver-npn saturation_current=0.1pA gain=100 early_voltage=100V junction_to_case=5K/W
  ideality=1.02 emitter_resistance=0R2
type pnp driver-pnp saturation_current=0.1pA gain=100 early_voltage=100V junction_to_case=5K/W
  cutoff_current=10nA
type npn power-npn  saturation_current=10pA gain=60 early_voltage=80V junction_to_case=1.2K/W
  inverse_early_voltage=20V collector_resistance=0R1
type pnp power-pnp  saturation_current=10pA gain=60 early_voltage=80V junction_to_case=1.2K/W
type n-jfet jf threshold_voltage=-2V idss=6mA drain_slope=0.01/V source_resistance=10R
type diode zener saturation_current=1fA zener_voltage=6V2 zener_test_current=5mA zener_ideality=2
  zener_tempco=300ppm/K series_resistance=3R
)";

}  // namespace

TEST_CASE("A divider answers to each of its parts as its formula says", "[solve][analytic]") {
  const MovedStage stage(drawn(divider), in(solve::HeatState::cold));
  const auto& circuit = stage.circuit();
  const std::vector<circuit::Parameter> parameters{{circuit::RailId{0}, "voltage"},
                                                   {*circuit::find_part(circuit, "R1"), "value"},
                                                   {*circuit::find_part(circuit, "R2"), "value"}};
  const auto adjoint = stage.adjoint(parameters);
  const std::vector<double>& slopes = adjoint.readings.at(0).by_parameter;
  // v = V R2 / (R1 + R2): by V 1/4, by R1 -V R2 / (R1 + R2)^2, by R2 V R1 / (R1 + R2)^2.
  CHECK_THAT(slopes[0], WithinRel(0.25, 1e-7));
  CHECK_THAT(slopes[1], WithinRel(-12.0 * 10e3 / 1.6e9, 1e-7));
  CHECK_THAT(slopes[2], WithinRel(12.0 * 30e3 / 1.6e9, 1e-7));
  // The rail's watts, V^2 / (R1 + R2), by V and by R1.
  const std::vector<double>& watts = adjoint.readings.at(1).by_parameter;
  CHECK_THAT(watts[0], WithinRel(24.0 / 40e3, 1e-7));
  CHECK_THAT(watts[1], WithinRel(-144.0 / 1.6e9, 1e-7));
}

TEST_CASE("A source at half its volts moves a reading by half as much", "[solve][analytic]") {
  const MovedStage stage(drawn(divider), in(solve::HeatState::cold, 0.5));
  const auto adjoint = stage.adjoint({{circuit::RailId{0}, "voltage"}});
  CHECK_THAT(adjoint.readings.at(0).by_parameter[0], WithinRel(0.125, 1e-7));
}

TEST_CASE("A track's own ohms move the place where it gives a fixed resistance",
          "[solve][analytic]") {
  // 5 mA through x R must stay: x R is fixed, so x goes as 1/R.
  const MovedStage stage(drawn("stage \"Track\"\n"
                               "rail vpos 12V resistance=0R\n"
                               "trimmer VR1 vpos m 2k at=40% spare=tied end_resistance=0R\n"
                               "resistor R1 m gnd 1k\n"
                               "reading i volts m gnd\n"
                               "adjust VR1 until i reads 6V\n"),
                         in(solve::HeatState::cold));
  const auto adjoint = stage.adjoint({{*circuit::find_part(stage.circuit(), "VR1"), "value"}});
  CHECK_THAT(adjoint.positions.at(0).by_parameter[0], WithinRel(-0.4 / 2000.0, 1e-7));
  CHECK_THAT(adjoint.readings.at(0).by_parameter[0],
             WithinRel(-12.0 * 1e3 * 0.4 / (1800.0 * 1800.0), 1e-7));
}

TEST_CASE("The adjoint of an amplifier equals differences of full solves, by every number",
          "[solve][identity]") {
  const auto heat = GENERATE(solve::HeatState::cold, solve::HeatState::warm);
  const MovedStage stage(drawn(practice), in(heat));
  CAPTURE(heat == solve::HeatState::warm);
  check_parameters(stage);
}

TEST_CASE("The adjoint by room, heat sink and mounting equals differences of full solves",
          "[heat][identity]") {
  const auto heat = GENERATE(solve::HeatState::cold, solve::HeatState::warm);
  const MovedStage stage(drawn(practice), in(heat));
  CAPTURE(heat == solve::HeatState::warm);
  check_heat(stage);
}

}  // namespace idlepoint::tests
