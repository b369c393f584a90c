// Oracle: the published rerating of tungsten lamps, I as V^0.55, in figures worked out by hand
// [FinkBeaty]; conservation of energy between lamp, stage and mains; Ohm's law.
#include "answers/asked.hpp"
#include "answers/series_lamp.hpp"

namespace idlepoint::tests {
namespace {

using answers::Glow;
using answers::SeriesLamp;

const SeriesLamp bench_lamp{.rated_w = 60.0, .mains_v = 230.0};

answers::LampState settled_with(const std::function<std::optional<double>(double)>& drawn_w) {
  const auto state = answers::settle_lamp(bench_lamp, drawn_w);
  REQUIRE(state.has_value());
  return *state;
}

// A stage that draws what a resistance across the primary would.
std::function<std::optional<double>(double)> resistance(double ohm) {
  return [ohm](double rails) { return rails * rails * 230.0 * 230.0 / ohm; };
}

}  // namespace

TEST_CASE("A lamp's current goes as the 0.55th power of its volts", "[answers][published]") {
  // Share of the volts, share of the current, share of the hot resistance: tables of rerating.
  struct Row {
    double volts;
    double current;
    double resistance;
  };
  for (const Row& row : {Row{0.1, 0.2818, 0.3548},
                         Row{0.2, 0.4126, 0.4847},
                         Row{0.3, 0.5157, 0.5817},
                         Row{0.5, 0.6830, 0.7320},
                         Row{0.7, 0.8219, 0.8517}}) {
    CAPTURE(row.volts);
    // The primary that leaves the lamp just this share, from Ohm's law on the other side.
    const double amps = row.current * 60.0 / 230.0;
    const auto state = settled_with(resistance((1.0 - row.volts) * 230.0 / amps));
    CHECK_THAT(state.share_of_volts, WithinAbs(row.volts, 2e-4));
    CHECK_THAT(state.share_of_current, WithinAbs(row.current, 5e-4));
    const double hot_ohm = 230.0 * 230.0 / 60.0;
    CHECK_THAT(state.lamp_v / state.lamp_a / hot_ohm, WithinAbs(row.resistance, 5e-4));
  }
}

TEST_CASE("What the mains gives is what lamp and stage take", "[answers][identity]") {
  for (const double ohm : {20.0, 500.0, 20e3}) {
    CAPTURE(ohm);
    const auto state = settled_with(resistance(ohm));
    CHECK_THAT(state.mains_w, WithinRel(230.0 * state.lamp_a, 1e-9));
    CHECK_THAT(state.mains_w, WithinRel(state.lamp_v * state.lamp_a + state.stage_w, 1e-9));
    const double stage_v = 230.0 - state.lamp_v;
    CHECK_THAT(state.stage_w, WithinRel(stage_v * stage_v / ohm, 1e-6));
  }
}

TEST_CASE("A dead short leaves the lamp all the mains and its rated current",
          "[answers][published]") {
  const auto state = settled_with(resistance(0.5));
  CHECK_THAT(state.lamp_v, WithinRel(230.0, 0.01));
  CHECK_THAT(state.lamp_a, WithinRel(60.0 / 230.0, 0.01));
  CHECK(state.glow == Glow::bright);
}

TEST_CASE("A lamp that carries next to nothing has its cold resistance", "[answers][published]") {
  const auto state = settled_with(resistance(10e6));
  // 0.003^0.45 of the hot resistance: 0.073 of 882 ohms.
  CHECK_THAT(state.lamp_v / state.lamp_a, WithinRel(0.0732 * 230.0 * 230.0 / 60.0, 0.01));
  CHECK_THAT(state.rails, WithinAbs(1.0, 1e-4));
  CHECK(state.glow == Glow::dark);
}

TEST_CASE("A stage that takes nothing gets full rails and leaves the lamp dark",
          "[answers][analytic]") {
  const auto state = settled_with([](double) { return 0.0; });
  CHECK(state.rails == 1.0);
  CHECK(state.lamp_a == 0.0);
}

TEST_CASE("Rails that rise from nothing stop at the first place where lamp and stage agree",
          "[answers][analytic]") {
  // Draws 20 W from 30 % of the rails on and next to nothing from 80 % on: two places would do.
  const auto state =
      settled_with([](double rails) { return rails < 0.3 ? 0.0 : (rails < 0.8 ? 60.0 : 0.1); });
  CHECK(state.rails < 0.31);
  CHECK(state.rails > 0.25);
}

TEST_CASE("Where the stage has no state under the lamp nothing is claimed", "[answers][identity]") {
  const auto none = answers::settle_lamp(bench_lamp, [](double rails) -> std::optional<double> {
    if (rails > 0.4) return std::nullopt;
    return 0.0;
  });
  CHECK_FALSE(none.has_value());
}

}  // namespace idlepoint::tests
