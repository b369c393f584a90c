// Oracle: the worked example of docs/language.md, whose figures an independent implementation of
// docs/models.md has given: preset 37.4 % cold, 35.4 % warm, loop gain 0.28, no safe rest at 60 %.
#include "warm_text.hpp"

namespace idlepoint::tests {
namespace {

const char* const practice = R"(
stage "Practice amplifier, output half, 25 W"
rail vpos  +28V resistance=0R15 tolerance=8%
rail vneg  -28V resistance=0R15 tolerance=8%
feed     I1 5mA from=vpos into=b_hi
hold     V1 b_lo gnd -1.21V
npn      Q3 c=b_hi b=x e=b_lo type=small-npn on=HS1 washer=2K/W
resistor R8 b_hi t 820R
trimmer  VR2 t x 1k at=35% spare=tied
resistor R9 x b_lo 470R
npn      Q4 c=vpos b=b_hi e=d_hi type=driver-npn on=HS1
pnp      Q5 c=vneg b=b_lo e=d_lo type=driver-pnp on=HS1
resistor R10 d_hi d_lo 150R
npn      Q6 c=vpos b=d_hi e=e_hi type=power-npn on=HS1 washer=0.6K/W
pnp      Q7 c=vneg b=d_lo e=e_lo type=power-pnp on=HS1 washer=0.6K/W
resistor R11 e_hi out 0R22 power=3W
resistor R12 out e_lo 0R22 power=3W
resistor R13 out gnd 1k
load     LS1 out gnd 8R
heatsink HS1 resistance=1.6K/W capacity=380J/K
reading  idle    volts e_hi e_lo
adjust   VR2 until idle reads 22mV within 1mV
type npn small-npn  saturation_current=10fA gain=250 early_voltage=100V junction_to_ambient=200K/W
type npn driver-npn saturation_current=0.1pA gain=100 early_voltage=100V junction_to_case=5K/W
type pnp driver-pnp saturation_current=0.1pA gain=100 early_voltage=100V junction_to_case=5K/W
type npn power-npn  saturation_current=10pA gain=60 early_voltage=80V junction_to_case=1.2K/W
type pnp power-pnp  saturation_current=10pA gain=60 early_voltage=80V junction_to_case=1.2K/W
)";

solve::Adjusted set_in(solve::HeatState heat) {
  solve::Conditions conditions;
  conditions.heat = heat;
  auto found = solve::solve_adjustments(drawn(practice), conditions, solve::SafeEnds(1));
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
  const auto stage = changed(drawn(practice), "VR2 at 60%");
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
    const auto moved = changed(drawn(practice), fmt::format("VR2 at {:.17g}%", 100.0 * at));
    return read(moved, warm(moved), "volts e_hi e_lo");
  };
  const double slope = (reads_at(travel + step) - reads_at(travel - step)) / (2.0 * step);
  CHECK_THAT(set.settings[0].slope_per_travel, WithinRel(slope, 1e-4));
}

}  // namespace idlepoint::tests
