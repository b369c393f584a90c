// The demonstration stages warmed through: they find a rest, and the heat adds up.
//
// Oracle: conservation of energy; a heat sink's rise is its resistance times the watts that enter
// it; what sensor and mounting are known to do to a spreader stage (common practice, no source).
#include <cmath>
#include <map>

#include "acceptance/stages_demo.hpp"

namespace idlepoint::tests {
namespace {

constexpr solve::Conditions warm_conditions{.heat = solve::HeatState::warm};

solve::OperatingPoint warmed(const circuit::CheckedCircuit& stage) {
  auto outcome = solve::solve_stage(stage, warm_conditions);
  if (const auto* trouble = std::get_if<solve::NotSettled>(&outcome)) FAIL(story(*stage, *trouble));
  REQUIRE(std::holds_alternative<solve::OperatingPoint>(outcome));
  return std::get<solve::OperatingPoint>(std::move(outcome));
}

circuit::PartId part_named(const circuit::Circuit& stage, const std::string& name) {
  const auto found = circuit::find_part(stage, name);
  REQUIRE(found.has_value());
  return *found;
}

/// Q604 is the sensor, Q607 and Q608 the outputs.
circuit::CheckedCircuit spreader_stage(double coupling,
                                       double junction_to_sink_k_per_w,
                                       double sink_k_per_w) {
  return demo_stage("spinney-45w.stage").edited([&](circuit::Circuit& circuit) {
    circuit.at(part_named(circuit, "Q604")).mounting.coupling = coupling;
    for (const char* output : {"Q607", "Q608"}) {
      auto& part = circuit.at(part_named(circuit, output));
      part.mounting.washer_k_per_w =
          junction_to_sink_k_per_w -
          circuit.at(*part.type).ratings.junction_to_case_k_per_w.value_or(0.0);
    }
    circuit.heatsinks.at(0).resistance_k_per_w = sink_k_per_w;
  });
}

double idle_v(const circuit::CheckedCircuit& stage, const solve::OperatingPoint& state) {
  const auto reading = circuit::find_reading(*stage, "both");
  REQUIRE(reading.has_value());
  return state.read(*stage, stage->at(*reading).probe);
}

}  // namespace

TEST_CASE("What the rails of a warm demonstration stage give comes out as heat",
          "[acceptance][identity]") {
  const std::string file = GENERATE(from_range(demo_files()));
  CAPTURE(file);
  const auto stage = demo_stage(file);
  const auto state = warmed(stage);
  const PowerBalance balance = power_balance(stage, state);
  CAPTURE(balance.given_w, balance.left_over_w);
  CHECK(balance.given_w > 0.0);
  CHECK(is_accounted_for(balance));
  CHECK(state.loop_gain() < 1.0);
}

TEST_CASE(
    "What enters a heat sink is the heat of all that is mounted on it, and lifts it by its "
    "resistance",
    "[acceptance][identity]") {
  const std::string file = GENERATE(from_range(demo_files()));
  CAPTURE(file);
  const auto stage = demo_stage(file);
  const auto state = warmed(stage);
  std::map<std::size_t, double> entering_w;
  for (std::size_t index = 0; index < stage->parts.size(); ++index) {
    const auto& mounting = stage->parts[index].mounting;
    if (!mounting.heatsink) continue;
    entering_w[mounting.heatsink->index] += state.part(circuit::PartId{index}).power_w;
  }
  for (std::size_t index = 0; index < stage->heatsinks.size(); ++index) {
    const auto& found = state.heatsink(circuit::HeatsinkId{index});
    CHECK_THAT(found.power_w, Catch::Matchers::WithinRel(entering_w[index], 1e-9));
    CHECK_THAT(found.temperature_k - stage->ambient_k,
               Catch::Matchers::WithinRel(
                   stage->heatsinks[index].resistance_k_per_w * entering_w[index], 1e-6));
  }
}

TEST_CASE("A junction on a heat sink stands its own heat above what it feels of the sink's rise",
          "[acceptance][identity]") {
  const std::string file = GENERATE(from_range(demo_files()));
  CAPTURE(file);
  const auto stage = demo_stage(file);
  const auto state = warmed(stage);
  for (std::size_t index = 0; index < stage->parts.size(); ++index) {
    const auto& part = stage->parts[index];
    if (!part.mounting.heatsink || !part.type) continue;
    const auto& found = state.part(circuit::PartId{index});
    const double sink_rise_k =
        state.heatsink(*part.mounting.heatsink).temperature_k - stage->ambient_k;
    const double own_k_per_w = part.mounting.washer_k_per_w +
                               stage->at(*part.type).ratings.junction_to_case_k_per_w.value_or(0.0);
    CAPTURE(part.name);
    CHECK_THAT(found.junction_k - stage->ambient_k,
               Catch::Matchers::WithinAbs(
                   part.mounting.coupling * sink_rise_k + own_k_per_w * found.power_w, 1e-6));
  }
}

TEST_CASE(
    "The idle of a spreader stage climbs further the less its sensor feels, and the worse its "
    "outputs are mounted",
    "[acceptance][identity]") {
  const auto idle = [](double coupling, double junction_to_sink_k_per_w) {
    const auto stage = spreader_stage(coupling, junction_to_sink_k_per_w, 1.5);
    return idle_v(stage, warmed(stage));
  };
  const auto drawn = spreader_stage(1.0, 2.0, 1.5);
  const double cold = idle_v(drawn, settled(drawn));
  const double good_full = idle(1.0, 2.0);
  const double good_half = idle(0.5, 2.0);
  const double poor_full = idle(1.0, 5.0);
  CAPTURE(cold, good_full, good_half, poor_full);
  CHECK(good_full < 1.5 * cold);
  CHECK(good_half > 1.25 * good_full);
  CHECK(poor_full > 1.25 * good_full);
}

TEST_CASE(
    "A spreader stage whose sensor feels the whole heat sink rests behind good and poor washers, "
    "and one whose sensor feels nothing runs away",
    "[acceptance][identity]") {
  const double junction_to_sink_k_per_w = GENERATE(2.0, 5.0);
  CAPTURE(junction_to_sink_k_per_w);
  const auto full = spreader_stage(1.0, junction_to_sink_k_per_w, 3.0);
  CHECK(warmed(full).loop_gain() < 0.8);
  const auto none = spreader_stage(0.0, junction_to_sink_k_per_w, 3.0);
  const auto outcome = solve::solve_stage(none, warm_conditions);
  const auto* trouble = std::get_if<solve::ThermalTrouble>(&outcome);
  REQUIRE(trouble != nullptr);
  CHECK(trouble->kind == solve::ThermalTrouble::Kind::runaway);
  CHECK(trouble->loop_gain > 1.0);
  const std::string& leader = none->at(trouble->part).name;
  CHECK((leader == "Q607" || leader == "Q608"));
}

}  // namespace idlepoint::tests
