// Oracle: exact solutions of the stage at places that are none of the grid's.
#include <cmath>

#include "answers/asked.hpp"
#include "answers/copies.hpp"
#include "answers/linear_sum.hpp"
#include "answers/slider_grid.hpp"

namespace idlepoint::tests {
namespace {

using answers::NoState;
using answers::SliderGrid;

const auto to_the_end = [](double) { return true; };

// Places without a pattern, each axis with a step of its own: the golden ratio's and the root of
// two's.
std::vector<double> travels_of(const SliderGrid& grid, int place) {
  const double first = std::fmod(0.6180339887 * (place + 0.5), 1.0);
  const double second = std::fmod(0.4142135624 * (place + 0.5), 1.0);
  return grid.axes.size() == 2 ? std::vector<double>{first, second} : std::vector<double>{first};
}

answers::Setup turned(const answers::Setup& setup,
                      const SliderGrid& grid,
                      const std::vector<double>& travels) {
  answers::Setup moved = setup;
  moved.stage = setup.stage.edited([&](circuit::Circuit& circuit) {
    for (std::size_t k = 0; k < travels.size(); ++k) {
      std::get<circuit::TrimmerDetails>(circuit.at(grid.trimmers[k]).details).travel = travels[k];
    }
  });
  return moved;
}

// A tenth of the band of each reading, or what no meter shows.
std::vector<double> tenths(const answers::Setup& setup) {
  answers::Looked looked;
  for (const auto& reading : setup.stage->readings) looked.probes.push_back(reading.probe);
  answers::Copies copies(setup.stage, setup.conditions, looked);
  REQUIRE(copies.is_sound());
  const auto slopes = copies.slopes();
  REQUIRE(slopes);
  std::vector<double> widths;
  for (std::size_t k = 0; k < looked.probes.size(); ++k) {
    const bool is_celsius = answers::unit_of(looked.probes[k]) == answers::ReadingUnit::celsius;
    widths.push_back(std::max(0.2 * answers::half_width((*slopes)[k]), is_celsius ? 0.1 : 40e-6));
  }
  return widths;
}

// True where the stage has a state there and it was compared.
bool compare_at(const answers::Setup& setup,
                const SliderGrid& grid,
                const std::vector<answers::SliderPoint>& points,
                const std::vector<double>& travels) {
  const auto drawn = answers::drawn_at(grid, points, travels);
  if (drawn.values.empty()) return false;
  const auto moved = turned(setup, grid, travels);
  const auto outcome = solve::solve_stage(moved.stage, moved.conditions);
  REQUIRE(std::holds_alternative<solve::OperatingPoint>(outcome));
  const auto& exact = std::get<solve::OperatingPoint>(outcome);
  const std::size_t readings = setup.stage->nodes.size() + setup.stage->parts.size();
  const auto within = tenths(moved);
  for (std::size_t k = 0; k < setup.stage->readings.size(); ++k) {
    const auto& reading = setup.stage->readings[k];
    CAPTURE(reading.name, travels);
    const double value = answers::in_own_unit(exact.read(*moved.stage, reading.probe),
                                              answers::unit_of(reading.probe));
    CHECK_THAT(drawn.values[readings + k], WithinAbs(value, within[k]));
  }
  return true;
}

void compare_all(const std::string& file, int places) {
  CAPTURE(file);
  const auto setup = demo(file, when_warm);
  const auto sliders = answers::find_sliders(setup, to_the_end);
  REQUIRE(sliders.grids.size() == 1);
  const auto& grid = sliders.grids.front();
  auto cold = setup;
  cold.conditions.heat = solve::HeatState::cold;
  int compared = 0;
  for (int place = 0; place < places; ++place) {
    const auto travels = travels_of(grid, place);
    compared += compare_at(cold, grid, grid.cold, travels) ? 1 : 0;
    compare_at(setup, grid, grid.warm, travels);
  }
  CHECK(compared > places / 2);
}

}  // namespace

TEST_CASE(
    "At 200 places of the trimmers a slider shows what an exact solution gives, to a tenth "
    "of the band",
    "[sheet][identity][heavy]") {
  compare_all(GENERATE("drystone-40w.stage", "teasel-8w.stage", "quarry-30w.stage"), 200);
}

TEST_CASE("A slider of a small stage shows what an exact solution gives, to a tenth of the band",
          "[sheet][identity]") {
  compare_all("sedge-28w.stage", 10);
}

TEST_CASE("A place of the grid is drawn as it was solved, to the last bit", "[sheet][identity]") {
  const auto setup = demo("sedge-28w.stage");
  const auto sliders = answers::find_sliders(setup, to_the_end);
  const auto& grid = sliders.grids.front();
  for (std::size_t k = 0; k < grid.axes[0].size(); ++k) {
    CHECK(answers::drawn_at(grid, grid.cold, {grid.axes[0][k]}).values == grid.cold[k].values);
  }
}

TEST_CASE("A stage without a trimmer has one picture and no slider", "[sheet][identity]") {
  const auto setup = drawn(
      "stage \"divider\"\nrail vp +10V resistance=0R\nresistor R1 vp m 1k\n"
      "resistor R2 m gnd 1k\nreading middle volts m gnd\n");
  const auto sliders = answers::find_sliders(setup, to_the_end);
  REQUIRE(sliders.grids.size() == 1);
  CHECK(sliders.grids[0].trimmers.empty());
  REQUIRE(sliders.grids[0].cold.size() == 1);
  const auto middle = circuit::find_node(*setup.stage, "m").value();
  CHECK_THAT(sliders.grids[0].cold[0].values[middle.index], WithinAbs(5.0, 1e-7));
}

TEST_CASE("Three trimmers move one at a time", "[sheet][identity]") {
  const auto setup = drawn(
      "stage \"dividers\"\nrail vp +10V resistance=0R\ntrimmer VR1 vp a gnd 1k at=50%\n"
      "trimmer VR2 vp b gnd 1k at=50%\ntrimmer VR3 vp c gnd 1k at=50%\nresistor R1 a gnd 10k\n"
      "resistor R2 b gnd 10k\nresistor R3 c gnd 10k\nreading first volts a gnd\n");
  const auto sliders = answers::find_sliders(setup, to_the_end);
  REQUIRE(sliders.grids.size() == 3);
  for (const auto& grid : sliders.grids) CHECK(grid.trimmers.size() == 1);
}

}  // namespace idlepoint::tests
