// Oracle: docs/language.md, "Tolerance and spread", one sentence a case; the half widths by hand.
#include "circuit/uncertainty.hpp"

#include <catch2/catch.hpp>
#include <algorithm>
#include <cmath>

#include "circuit/type_fields.hpp"
#include "complaints/kinds.hpp"
#include "complaints/render.hpp"
#include "language/read_stage.hpp"

namespace idlepoint::circuit {
namespace {

CheckedCircuit drawn(const std::string& text) {
  auto file = language::read_stage(text, "test.stage");
  if (!file) FAIL(complaints::render(file.complaints()));
  auto stage = check_circuit(std::move(file).value().circuit);
  if (!stage) FAIL(complaints::render(stage.complaints()));
  return std::move(stage).value();
}

const std::string pair_of_followers = R"(stage "Two followers"
rail vpos 12V tolerance=8%
rail vneg -12V
resistor R1 vpos b 10k
resistor R2 b gnd 10k tolerance=1%
trimmer VR1 e1 w vneg 1k
resistor R3 e2 w 100R tolerance=0%
npn Q1 c=vpos b=b e=e1 type=t
npn Q2 c=vpos b=b e=e2 type=t
type npn t saturation_current=10fA gain=120 gain.min=60 gain.max=240
)";

/// The draws that move one parameter.
std::vector<Effect> effects_on(const Circuit& circuit,
                               const Uncertainty& all,
                               const std::string& part,
                               const std::string& field) {
  const Parameter wanted{*find_part(circuit, part), field};
  std::vector<Effect> found;
  for (const Draw& draw : all.draws) {
    for (const Effect& effect : draw.effects) {
      if (all.parameters[effect.parameter] == wanted) found.push_back(effect);
    }
  }
  return found;
}

Effect only_effect_on(const CheckedCircuit& stage,
                      const std::string& part,
                      const std::string& field) {
  const auto found = effects_on(*stage, uncertainty(*stage), part, field);
  REQUIRE(found.size() == 1);
  return found.front();
}

}  // namespace

TEST_CASE("Rails, resistors, tracks and each transistor's own spread are independent draws",
          "[circuit][analytic]") {
  const CheckedCircuit stage = drawn(pair_of_followers);
  const Uncertainty all = uncertainty(*stage);
  // vpos, R1, R2, VR1, the gains of Q1 and Q2; vneg and R3 are exact.
  REQUIRE(all.draws.size() == 6);
  CHECK(all.parameters.size() == 6);
  for (const Draw& draw : all.draws) CHECK(draw.effects.size() == 1);
  CHECK(all.parameters[0] == Parameter{RailId{0}, "voltage"});
  CHECK(all.draws[0].effects[0].half_width == 0.08);
  CHECK(only_effect_on(stage, "R1", "value").half_width == 0.05);
  CHECK(only_effect_on(stage, "R2", "value").half_width == 0.01);
  CHECK(only_effect_on(stage, "VR1", "value").half_width == 0.2);
}

TEST_CASE("A spread from half to double is even in the logarithm", "[circuit][analytic]") {
  const CheckedCircuit stage = drawn(pair_of_followers);
  const Effect gain = only_effect_on(stage, "Q2", "gain");
  CHECK(gain.move == Move::logarithmic);
  CHECK(gain.half_width == Approx(std::log(2.0)));
  CHECK(moved(120.0, gain, 1.0) == Approx(240.0));
  CHECK(moved(120.0, gain, -1.0) == Approx(60.0));
}

TEST_CASE("A missing end of a spread is the plain figure itself", "[circuit][analytic]") {
  std::string text = pair_of_followers;
  text.replace(text.find("gain.min=60 "), 12, "");
  CHECK(only_effect_on(drawn(text), "Q1", "gain").half_width == Approx(0.5 * std::log(2.0)));
}

TEST_CASE("A spread on both sides of zero is even in the number itself", "[circuit][analytic]") {
  const CheckedCircuit stage = drawn(R"(stage "A depletion device"
rail vpos 12V tolerance=0%
n-mosfet M1 d=vpos g=g s=s type=m
resistor R1 g gnd 1M
resistor R2 s gnd 1k
type n-mosfet m threshold_voltage=0.2V threshold_voltage.min=-1V threshold_voltage.max=1V
  current_factor=1mA/V2 body_diode=0A source_resistance=0.1R source_resistance.min=0R
  source_resistance.max=0.6R
)");
  const Effect threshold = only_effect_on(stage, "M1", "threshold_voltage");
  CHECK(threshold.move == Move::additive);
  CHECK(threshold.half_width == Approx(1.0));
  CHECK(moved(0.2, threshold, -1.0) == Approx(-0.8));
  // No resistance below nought: the draw is no wider than the plain figure.
  CHECK(only_effect_on(stage, "M1", "source_resistance").half_width == Approx(0.1));
}

TEST_CASE("Matched transistors share one draw and differ by the stated percentage",
          "[circuit][analytic]") {
  const CheckedCircuit stage = drawn(pair_of_followers + "matched Q1 Q2 within=2%\n");
  const Uncertainty all = uncertainty(*stage);
  const auto shared = std::count_if(all.draws.begin(), all.draws.end(), [](const Draw& draw) {
    return draw.effects.size() == 2;
  });
  CHECK(shared == 1);
  const auto gain = effects_on(*stage, all, "Q1", "gain");
  REQUIRE(gain.size() == 2);
  CHECK(gain[0].half_width == Approx(std::log(2.0)));
  CHECK(gain[1].move == Move::relative);
  CHECK(gain[1].half_width == Approx(0.02));
  CHECK(only_effect_on(stage, "Q2", "saturation_current").half_width == Approx(0.02));
}

TEST_CASE("Matched to 3 mV at the base is a saturation current to 12.4 per cent",
          "[circuit][analytic]") {
  const CheckedCircuit stage = drawn(pair_of_followers + "matched Q1 Q2 within=3mV\n");
  const Effect difference = only_effect_on(stage, "Q1", "saturation_current");
  // kT/q at 25 C is 25.693 mV.
  CHECK(moved(1.0, difference, 1.0) == Approx(std::exp(3.0 / 25.693)).epsilon(1e-4));
  CHECK(effects_on(*stage, uncertainty(*stage), "Q1", "gain").size() == 1);
}

TEST_CASE("Parts that are gone, and a gain set by a fault, do not spread", "[circuit][identity]") {
  const CheckedCircuit stage = drawn(pair_of_followers + "matched Q1 Q2\n");
  const CheckedCircuit broken = stage.edited([](Circuit& circuit) {
    circuit.at(*find_part(circuit, "Q1")).damage.gain = 10.0;
    circuit.at(*find_part(circuit, "R1")).damage.absent = true;
    circuit.rails[0].lost = true;
  });
  const Uncertainty all = uncertainty(*broken);
  CHECK(effects_on(*broken, all, "Q1", "gain").empty());
  CHECK(effects_on(*broken, all, "Q2", "gain").size() == 2);
  CHECK(effects_on(*broken, all, "R1", "value").empty());
  CHECK(nominal(*broken, {*find_part(*broken, "Q1"), "gain"}) == 10.0);
}

TEST_CASE("A circuit with other numbers has them in the parts named alone", "[circuit][identity]") {
  const CheckedCircuit stage = drawn(pair_of_followers);
  const std::vector<Parameter> parameters{{RailId{1}, "voltage"},
                                          {*find_part(*stage, "R3"), "value"},
                                          {*find_part(*stage, "Q2"), "gain"},
                                          {*find_part(*stage, "Q2"), "saturation_current"}};
  const std::vector<double> values{-11.0, 99.0, 77.0, 2e-14};
  const CheckedCircuit other = with_parameters(stage, parameters, values);
  for (std::size_t k = 0; k < values.size(); ++k) {
    CHECK(nominal(*other, parameters[k]) == values[k]);
    CHECK(nominal(*stage, parameters[k]) != values[k]);
  }
  CHECK(nominal(*other, {*find_part(*other, "Q1"), "gain"}) == 120.0);
  CHECK(other->types.size() == stage->types.size() + 1);
}

TEST_CASE("Draws in the middle are the drawing as written", "[circuit][identity]") {
  const CheckedCircuit stage = drawn(pair_of_followers + "matched Q1 Q2 within=3mV\n");
  const Uncertainty all = uncertainty(*stage);
  const std::vector<double> middle(all.draws.size(), 0.0);
  const auto values = values_at(*stage, all, middle);
  for (std::size_t k = 0; k < values.size(); ++k) {
    CHECK(values[k] == nominal(*stage, all.parameters[k]));
  }
}

TEST_CASE("A draw's slope is that of the moved number", "[circuit][identity]") {
  for (const Move move : {Move::relative, Move::logarithmic, Move::additive}) {
    const Effect effect{0, move, 0.3};
    const double difference = moved(5.0, effect, 1e-5) - moved(5.0, effect, -1e-5);
    CHECK(slope_by_draw(5.0, effect) == Approx(difference / 2e-5));
  }
}

TEST_CASE("A spread about a figure that is not given is asked about", "[circuit][identity]") {
  std::string text = pair_of_followers;
  text.replace(text.find("gain.max=240"), 12, "early_voltage.min=50V");
  auto file = language::read_stage(text, "test.stage");
  REQUIRE_FALSE(file);
  CHECK(file.complaints().front().kind == complaints::kind("missing-key"));
}

}  // namespace idlepoint::circuit
