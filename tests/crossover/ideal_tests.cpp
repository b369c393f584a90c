// Oracle: two ideal exponential followers solved by hand (the implicit equation of their currents,
// roots and minimum by Boost.Math); the published rule for their standing current [Oliver1971],
// whose own identity is that the gain in the middle then equals that far out; central differences
// of independent solves.
#include <cmath>
#include <string>

#include "crossover/ideal_pair.hpp"
#include "solve/solve_stage.hpp"

namespace idlepoint::tests {
namespace {

const IdealPair pair;

const answers::IdleSetting& makers(const answers::Crossover& answer) {
  REQUIRE(answer.at_makers);
  return answer.settings[*answer.at_makers];
}

double mirror_miss(const answers::GainCurve& curve) {
  double worst = 0.0;
  for (std::size_t k = 0; k < curve.gain.size(); ++k) {
    worst = std::max(worst, std::abs(curve.gain[k] - curve.gain[curve.gain.size() - 1 - k]));
  }
  return worst;
}

}  // namespace

TEST_CASE("The gain of two ideal followers is that of their implicit equation, point by point",
          "[crossover][analytic]") {
  const double standing_a = GENERATE(0.005, 0.0547, 0.3);
  const auto answer = crossover_of(drawn(pair.drawing(standing_a)));
  const auto& curve = makers(answer).curve;
  REQUIRE(curve.gain.size() == 201);
  for (std::size_t k = 0; k < curve.gain.size(); k += 10) {
    CAPTURE(standing_a, k, curve.output_v[k]);
    CHECK_THAT(curve.gain[k], WithinRel(pair.gain(standing_a, curve.output_v[k]), 1e-7));
  }
}

TEST_CASE("The swing is a quarter of the rail either way", "[crossover][analytic]") {
  const auto answer = crossover_of(drawn(pair.drawing(0.05)));
  const auto& curve = makers(answer).curve;
  CHECK_THAT(answer.swing_v, WithinRel(5.0, 1e-12));
  // The source's own ohm takes what its current makes of it.
  CHECK_THAT(curve.drive_v.back() - curve.drive_v.front(), WithinRel(10.0, 1e-3));
  CHECK_THAT(curve.output_v.back(), WithinRel(pair.output_at(0.05, 5.0), 1e-3));
}

TEST_CASE("A symmetric stage has a symmetric curve", "[crossover][identity]") {
  const auto answer = crossover_of(drawn(pair.drawing(0.05)));
  CHECK(mirror_miss(makers(answer).curve) < 1e-6);
}

TEST_CASE("The flattest standing current of ideal followers is where their equation has it",
          "[crossover][analytic]") {
  const auto answer = crossover_of(drawn(pair.drawing(0.05)));
  const auto [log_a, ripple] = boost::math::tools::brent_find_minima(
      [](double log_standing) { return pair.ripple(std::exp(log_standing)); },
      std::log(0.02),
      std::log(0.12),
      10);
  const double reading_v = 2.0 * pair.emitter_ohm * std::exp(log_a);
  CAPTURE(reading_v, flattest(answer).reading);
  CHECK_THAT(flattest(answer).reading, WithinRel(reading_v, 0.03));
  CHECK_THAT(flattest(answer).curve.ripple(), WithinRel(ripple, 0.02));
}

TEST_CASE("The published rule for two followers puts kT/q across each emitter resistor",
          "[crossover][published]") {
  const auto answer = crossover_of(drawn(pair.drawing(room_thermal_v / pair.emitter_ohm)));
  REQUIRE(answer.published);
  CHECK_THAT(answer.published->reading_v, WithinRel(2.0 * room_thermal_v, 1e-6));
  CHECK_THAT(answer.published->resistors.at(0).standing_a, WithinRel(0.0547, 1e-3));
  REQUIRE(answer.at_published);
  const auto& there = answer.settings[*answer.at_published];
  const double far_out = pair.load_ohm / (pair.load_ohm + pair.emitter_ohm);
  CHECK_THAT(there.curve.at_rest(), WithinRel(far_out, 1e-5));
  // The flattest over the swing lies near it, and is not much flatter.
  CHECK_THAT(flattest(answer).reading, WithinRel(answer.published->reading_v, 0.25));
  CHECK(there.curve.ripple() < 1.5 * flattest(answer).curve.ripple());
}

// The reading where two ideal followers are flattest is some volts of kT/q, whatever the resistors'
// ohms: the same share of every emitter resistor, so that 5 % parts move it by a few per cent only.
TEST_CASE("The flattest reading of ideal followers hardly depends on their resistors",
          "[crossover][analytic]") {
  const auto setup = drawn(pair.drawing(0.05));
  const auto answer = settled(answers::ask_crossover(setup));
  REQUIRE(answer.flattest_band);
  CHECK(answer.flattest_band->low < 1.03 * flattest(answer).reading);
  CHECK(answer.flattest_band->high > 0.97 * flattest(answer).reading);
  CHECK(answer.flattest_band->high < 1.15 * answer.flattest_band->low);
}

TEST_CASE("Too little standing current leaves a dip in the middle, too much a hump",
          "[crossover][analytic]") {
  const auto poor = crossover_of(drawn(pair.drawing(0.003)));
  const auto rich = crossover_of(drawn(pair.drawing(0.25)));
  const auto& dip = makers(poor).curve;
  const auto& hump = makers(rich).curve;
  CHECK(dip.at_rest() == dip.smallest());
  CHECK(hump.at_rest() > 0.999 * hump.largest());
  CHECK(dip.ripple() > 2.0 * flattest(poor).curve.ripple());
  CHECK(hump.ripple() > 2.0 * flattest(rich).curve.ripple());
}

TEST_CASE("The gain equals central differences of independent solves", "[crossover][identity]") {
  const auto setup = drawn(pair.drawing(0.02));
  const auto answer = crossover_of(setup);
  const auto& there = makers(answer);
  constexpr double step_v = 1e-3;
  const auto output_at = [&](double drive_v) {
    const auto moved = there.stage.edited(
        [&](circuit::Circuit& circuit) { circuit.at(part_named(setup, "V1")).value = drive_v; });
    const auto state = settled(solve::solve_cold(moved, {.load_connected = true}));
    return state.voltage_v(*circuit::find_node(*moved, "out"));
  };
  for (const std::size_t k : {20U, 90U, 100U, 140U}) {
    const double drive_v = there.curve.drive_v[k];
    CAPTURE(k, drive_v);
    CHECK_THAT(there.curve.output_v[k], WithinAbs(output_at(drive_v), 1e-8));
    const double slope = (output_at(drive_v + step_v) - output_at(drive_v - step_v)) / (2 * step_v);
    CHECK_THAT(there.curve.gain[k], WithinRel(slope, 1e-4));
  }
}

}  // namespace idlepoint::tests
