// Oracle: the rules of docs/commands.md, checked on the state that the preset itself reaches.
#include <algorithm>
#include <cmath>

#include "crossover/ideal_pair.hpp"
#include "report/crossover_words.hpp"
#include "report/json_preset.hpp"

namespace idlepoint::tests {
namespace {

using circuit::Circuit;

answers::Setup without_adjust(const std::string& name) {
  auto setup = demo(name, when_warm);
  setup.stage = setup.stage.edited([](Circuit& circuit) { circuit.adjustments.clear(); });
  return setup;
}

void check_aim_is_met(const answers::Preset& preset) {
  REQUIRE(preset.aim);
  REQUIRE(preset.adjustments.size() == 1);
  const auto& only = preset.adjustments.front();
  CHECK(only.reached);
  CHECK_THAT(only.target, WithinRel(preset.aim->target, 1e-12));
  CHECK_THAT(only.value, WithinRel(preset.aim->target, 0.01));
}

double hottest_rise_k(const answers::Preset& preset) {
  double rise_k = 0.0;
  for (std::size_t index = 0; index < preset.stage->heatsinks.size(); ++index) {
    const auto& sink = preset.state->heatsink(circuit::HeatsinkId{index});
    rise_k = std::max(rise_k, sink.temperature_k - preset.stage->ambient_k);
  }
  return rise_k;
}

}  // namespace

TEST_CASE("A file without an adjust is set to an aim out of the crossover's table",
          "[crossover][identity]") {
  const auto setup = without_adjust("sedge-28w.stage");
  const auto preset = preset_of(setup);
  check_aim_is_met(preset);
  CHECK(preset.stage->at(preset.adjustments.front().trimmer).name == "VR901");
  CHECK_THAT(report::aim_in_words(preset), Catch::Contains("NOT THE MAKER'S FIGURE"));
  CHECK_THAT(report::json_of(preset), Catch::Contains("\"makers_figure\": false"));
  const auto table = crossover_of(setup);
  CHECK_FALSE(table.is_makers);
  const auto is_aim = [&](const auto& row) {
    return std::abs(row.reading - preset.aim->target) < 1e-3 * row.reading;
  };
  CHECK(std::any_of(table.settings.begin(), table.settings.end(), is_aim));
}

TEST_CASE("What a file does not name to read is read across an emitter resistor",
          "[crossover][identity]") {
  auto setup = without_adjust("sedge-28w.stage");
  setup.stage = setup.stage.edited([](Circuit& circuit) { circuit.readings.clear(); });
  const auto preset = preset_of(setup);
  check_aim_is_met(preset);
  const auto& reading = preset.stage->at(preset.adjustments.front().reading);
  CHECK(reading.name == "R911");
  CHECK(circuit::write_probe(*preset.stage, reading.probe) == "volts e_hi out");
}

TEST_CASE("Where the flattest is too hot the aim is the most that stays cool",
          "[crossover][identity]") {
  auto setup = without_adjust("sedge-28w.stage");
  setup.stage =
      setup.stage.edited([](Circuit& circuit) { circuit.heatsinks[0].resistance_k_per_w = 12.0; });
  const auto preset = preset_of(setup);
  check_aim_is_met(preset);
  CHECK_FALSE(preset.aim->is_flattest);
  CHECK(preset.aim->target < preset.aim->flattest_reading);
  CHECK(preset.thermal->loop_gain < answers::cool_loop_gain);
  CHECK(hottest_rise_k(preset) <= answers::cool_sink_rise_k);
}

TEST_CASE("A file with an adjust is set to the maker's figure and no other", "[crossover]") {
  const auto preset = preset_of(demo("sedge-28w.stage", when_warm));
  CHECK_FALSE(preset.aim);
  CHECK_THAT(preset.adjustments.front().target, WithinRel(0.015, 1e-12));
}

TEST_CASE("Without an adjust or a drive point there is no preset, and the words say why",
          "[crossover]") {
  auto setup = without_adjust("sedge-28w.stage");
  setup.stage = setup.stage.edited([](Circuit& circuit) { circuit.signal.drive.reset(); });
  const auto preset = preset_of(setup);
  REQUIRE(preset.refused);
  CHECK_THAT(*preset.refused, Catch::Contains("no `adjust`"));
  CHECK_THAT(*preset.refused, Catch::Contains("`signal drive=NODE`"));
}

}  // namespace idlepoint::tests
