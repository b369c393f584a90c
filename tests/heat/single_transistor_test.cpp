// Oracle: one transistor with a fixed base voltage and an emitter resistor. dI/dT = |dVBE/dT| /
// (RE + VT/I), with VBE's temperature coefficient of [Tsividis1980] at constant current, and
// dP/dT = (VCC - 2 I RE) dI/dT; the heat comes back as thermal resistance times that (the stability
// condition of Kakani & Bhandari ch. 6 and Millman & Halkias sec. 9-13, section from memory).
#include <cmath>

#include "warm_text.hpp"

namespace idlepoint::tests {
namespace {

/// Base current, Early effect and the gain's own temperature law left out.
std::string follower(double k_per_w, double base_v, double emitter_ohm) {
  return fmt::format(
      "stage \"One transistor\"\n"
      "rail vc 35V resistance=0R\n"
      "rail vb {}V resistance=0R\n"
      "npn Q1 c=vc b=vb e=e type=hot\n"
      "resistor R1 e gnd {}R\n"
      "type npn hot saturation_current=10pA gain=1000000000 gain_temperature_power=0\n"
      "  junction_to_ambient={}K/W max_junction_temperature=175C\n",
      base_v,
      emitter_ohm,
      k_per_w);
}

constexpr double volts_per_kelvin = 1.380649e-23 / 1.602176634e-19;

}  // namespace

TEST_CASE("The loop gain of one transistor is resistance times watts per kelvin",
          "[heat][published]") {
  const double k_per_w = GENERATE(1.0, 4.0, 7.0);
  const double emitter_ohm = GENERATE(0.22, 0.47);
  const auto stage = drawn(follower(k_per_w, 0.55, emitter_ohm));
  const auto point = warm(stage);
  const double current_a = read(stage, point, "amps R1");
  const double junction_k = read(stage, point, "celsius Q1");
  const double thermal_v = volts_per_kelvin * junction_k;
  const double vbe_v = 0.55 - current_a * emitter_ohm;
  const double vbe_per_k = (vbe_v - 1.206 - 3.0 * thermal_v) / junction_k;
  const double amps_per_k = -vbe_per_k / (emitter_ohm + thermal_v / current_a);
  const double watts_per_k = (35.0 - 2.0 * current_a * emitter_ohm) * amps_per_k;
  CAPTURE(current_a, junction_k, vbe_v);
  CHECK_THAT(point.loop_gain(), WithinRel(k_per_w * watts_per_k, 1e-6));
}

TEST_CASE("A junction stands its thermal resistance times its watts above the room",
          "[heat][published]") {
  // Neamen 8.1 and Sedra & Smith 14.4: T - T_ambient = theta P.
  const auto stage = drawn(follower(5.0, 0.55, 0.47));
  const auto point = warm(stage);
  const double watts = read(stage, point, "watts Q1");
  CHECK_THAT(read(stage, point, "celsius Q1") - 298.15, WithinRel(5.0 * watts, 1e-9));
  const double current_a = read(stage, point, "amps R1");
  CHECK_THAT(watts, WithinRel(current_a * (35.0 - 0.47 * current_a), 1e-6));
}

TEST_CASE("Beyond the limiting thermal resistance one transistor runs away", "[heat][published]") {
  // The runaway limit 1 / (VCE dI/dT) for 35 V, 0R22: some 20 K/W at 20 mA cold, less as it warms.
  CHECK(std::holds_alternative<solve::OperatingPoint>(
      warm_outcome(drawn(follower(4.0, 0.55, 0.22)))));
  const auto stage = drawn(follower(40.0, 0.55, 0.22));
  const auto trouble = warm_trouble(stage);
  CHECK(trouble.kind == solve::ThermalTrouble::Kind::runaway);
  CHECK(stage->at(trouble.part).name == "Q1");
}

TEST_CASE("A state above the limit of the junction is too hot, not a runaway", "[heat][analytic]") {
  // A held current through a transistor joined as a diode, about 0.7 V x 1 A, cannot run away:
  // its volts fall as it warms; 500 K/W make some 150 K.
  const auto stage = drawn(
      "stage \"Held current\"\n"
      "rail vc 35V resistance=0R\n"
      "npn Q1 c=vc b=vc e=e type=hot\n"
      "feed I1 1A from=e into=gnd compliance=none\n"
      "type npn hot saturation_current=10pA gain=100 junction_to_ambient=500K/W\n");
  const auto trouble = warm_trouble(stage);
  CHECK(trouble.kind == solve::ThermalTrouble::Kind::too_hot);
  CHECK(trouble.loop_gain < 1.0);
  CHECK(trouble.junction_k > 423.15);
  CHECK(trouble.junction_k < 673.15);
}

}  // namespace idlepoint::tests
