// "What would a lamp in the mains lead show?" A filament in series with the amplifier's
// transformer.
//
// The transformer counts as an ideal ratio: the full mains gives the rails as entered, loaded, and
// it takes from the mains what the stage takes from the rails. The lamp follows the filament law of
// docs/models.md [FinkBeaty]. Used by the power-up answer.
#pragma once

#include <functional>
#include <optional>
#include <string_view>

namespace idlepoint::answers {

struct SeriesLamp {
  double rated_w = 60.0;   ///< At `mains_v`. > 0.
  double mains_v = 230.0;  ///< > 0.
  bool mains_assumed = false;
};

/// What the eye sees, by the share of its volts that a lamp gets.
enum class Glow { dark, dull, bright };

/// "dark", "dull", "bright".
[[nodiscard]] std::string_view word(Glow glow) noexcept;

/// Common practice, no source: below a tenth of its volts a lamp gives no light that is seen in a
/// lit room, from half of them it lights the bench.
inline constexpr double dull_from = 0.1;
inline constexpr double bright_from = 0.5;

struct LampState {
  double rails = 0.0;  ///< Fraction that the stage is left with, of the rails without the lamp.
  double lamp_v = 0.0;
  double lamp_a = 0.0;
  double share_of_current = 0.0;  ///< Of what it takes at its rated volts.
  double share_of_volts = 0.0;
  Glow glow = Glow::dark;
  double stage_w = 0.0;
  double mains_w = 0.0;  ///< Lamp and stage together.
};

/// Where lamp and stage agree: the lowest rails at which the lamp passes no more than the stage
/// takes, which is where rails that rise from nothing come to stand. `drawn_w` is what the stage
/// takes with its rails at a fraction, > 0 and <= 1; none: no DC state there, and then no answer.
/// Cost: 20 calls and a few more.
[[nodiscard]] std::optional<LampState> settle_lamp(
    const SeriesLamp& lamp, const std::function<std::optional<double>(double rails)>& drawn_w);

}  // namespace idlepoint::answers
