// The worked example of docs/language.md in one text, types and all.
#pragma once

#include <string>

namespace idlepoint::tests {

/// A complementary emitter follower of 25 W without its driver stage, as in docs/language.md.
inline const std::string& practice_stage() {
  static const std::string text = R"(stage "Practice amplifier, output half, 25 W"
rail     vpos  +28V resistance=0R15 tolerance=8%
rail     vneg  -28V resistance=0R15 tolerance=8%
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
reading  offset  volts out  gnd
limit    offset  -100mV to 100mV
adjust   VR2 until idle reads 22mV within 1mV
type npn small-npn  saturation_current=10fA gain=250 early_voltage=100V junction_to_ambient=200K/W
type npn driver-npn saturation_current=0.1pA gain=100 early_voltage=100V junction_to_case=5K/W
type pnp driver-pnp saturation_current=0.1pA gain=100 early_voltage=100V junction_to_case=5K/W
type npn power-npn  saturation_current=10pA gain=60 early_voltage=80V junction_to_case=1.2K/W
type pnp power-pnp  saturation_current=10pA gain=60 early_voltage=80V junction_to_case=1.2K/W
)";
  return text;
}

}  // namespace idlepoint::tests
