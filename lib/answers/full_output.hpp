// How far a stage can swing into its loudspeaker, and from which supply.
//
// Used wherever a part is judged by what loud music asks of it. Source: docs/commands.md,
// "Ratings"; [SedraSmith2015] chapter 12 for the sine at full output.
#pragma once

#include <optional>

#include "circuit/circuit.hpp"
#include "solve/conditions.hpp"

namespace idlepoint::answers {

/// The two outermost sources, `gnd` counting as one, as today's mains and the conditions' `rails`
/// give them, before their resistance. Lost rails do not count.
struct OutermostSources {
  double low_v = 0.0;
  double high_v = 0.0;
  double low_tolerance = 0.0;  ///< A fraction; 0 where the source is `gnd`.
  double high_tolerance = 0.0;

  /// Where the output sits between them: 0 V on a split supply, half way on a single one.
  [[nodiscard]] double mid_v() const noexcept;
  /// From there to the nearer of the two; 0 where there is no supply.
  [[nodiscard]] double peak_v() const noexcept;
  /// Both as high as their tolerance says.
  [[nodiscard]] OutermostSources with_mains_high() const noexcept;
  /// From one to the other with the mains high.
  [[nodiscard]] double widest_v() const noexcept;
};

[[nodiscard]] OutermostSources outermost_sources(const circuit::Circuit& circuit,
                                                 const solve::Conditions& conditions) noexcept;

/// One sine as large as the supply allows, with nothing lost in the transistors.
struct FullOutput {
  double peak_v = 0.0;    ///< From the output's mid position to the nearer outermost source.
  double peak_a = 0.0;    ///< `peak_v` into the nominal load.
  double load_ohm = 0.0;  ///< As the file writes the loudspeaker.
  circuit::PartId load;   ///< The first that is not taken out.
};

/// None without a load, an output or a supply.
[[nodiscard]] std::optional<FullOutput> full_output(const circuit::Circuit& circuit,
                                                    const solve::Conditions& conditions);

/// Mean watts in the one transistor of a class-B half, that carries all of its half's current,
/// while the output plays a sine of `level` (0 to 1) times full output into a load of that size at
/// `phase_rad`, either sign: the mean over the cycle of its own volts times its half sine,
/// V I (level/pi - level^2 cos(phase)/4). At `worst_level`: V^2/(pi^2 R) into a resistance,
/// (1/pi - 1/8) V^2/R at 60 degrees.
[[nodiscard]] double mean_dissipation_w(const FullOutput& full,
                                        double level,
                                        double phase_rad) noexcept;

/// The level at which that is largest: 2/(pi cos(phase)), but no more than 1.
[[nodiscard]] double worst_level(double phase_rad) noexcept;

}  // namespace idlepoint::answers
