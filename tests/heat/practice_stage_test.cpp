// Oracle: the worked example of docs/language.md, whose figures an independent implementation of
// docs/models.md has given: preset 37.4 % cold, 35.4 % warm, loop gain 0.28, no safe rest at 60 %.
#include "practice_stage.hpp"

#include "warm_text.hpp"

namespace idlepoint::tests {
namespace {

solve::Adjusted set_in(solve::HeatState heat) {
  solve::Conditions conditions;
  conditions.heat = heat;
  auto found = solve::solve_adjustments(drawn(practice_stage()), conditions, solve::SafeEnds(1));
  REQUIRE(std::holds_alternative<solve::Adjusted>(found));
  return std::get<solve::Adjusted>(std::move(found));
}

}  // namespace

TEST_CASE("The practice amplifier is set at 37.4 % cold and 35.4 % warm", "[heat][published]") {
  CHECK_THAT(set_in(solve::HeatState::cold).settings[0].travel, WithinAbs(0.374, 0.0005));
  const solve::Adjusted warm_set = set_in(solve::HeatState::warm);
  CHECK_THAT(warm_set.settings[0].travel, WithinAbs(0.354, 0.0005));
  CHECK_THAT(warm_set.state.loop_gain(), WithinAbs(0.285, 0.006));
}

TEST_CASE("The practice amplifier cannot be left warm with its trimmer at 60 %",
          "[heat][published]") {
  const auto stage = changed(drawn(practice_stage()), "VR2 at 60%");
  const auto trouble = warm_trouble(stage);
  CHECK(trouble.junction_k > 423.15);
  CHECK(circuit::is_transistor(stage->at(trouble.part).kind));
  CHECK(trouble.heatsink_k < trouble.junction_k);
}

TEST_CASE("A warm slope includes what the heat adds", "[heat][identity]") {
  const solve::Adjusted set = set_in(solve::HeatState::warm);
  const double travel = set.settings[0].travel;
  constexpr double step = 1e-4;
  const auto reads_at = [&](double at) {
    const auto moved = changed(drawn(practice_stage()), fmt::format("VR2 at {:.17g}%", 100.0 * at));
    return read(moved, warm(moved), "volts e_hi e_lo");
  };
  const double slope = (reads_at(travel + step) - reads_at(travel - step)) / (2.0 * step);
  CHECK_THAT(set.settings[0].slope_per_travel, WithinRel(slope, 1e-4));
}

}  // namespace idlepoint::tests
