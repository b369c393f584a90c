// Where every trimmer stands before the amplifier is switched on, and where it is expected to
// finish: the stage in both.
//
// Used by the power-up answer, and by the words of the preset for its safe place. Source:
// docs/commands.md, "preset" and "powerup".
#pragma once

#include <optional>
#include <string_view>
#include <variant>
#include <vector>

#include "answers/set_trimmers.hpp"
#include "answers/setup.hpp"
#include "answers/thermal_story.hpp"
#include "circuit/checked_circuit.hpp"
#include "solve/not_settled.hpp"

namespace idlepoint::answers {

/// Where a trimmer belongs while nothing is proved.
enum class SafePlace {
  end_a,      ///< The first-named end.
  end_b,      ///< The other end.
  half_way,   ///< Neither end is the safe one.
  at_preset,  ///< Half way is no safer than where it is expected to finish.
};

/// "a", "b", "half way", "preset".
[[nodiscard]] std::string_view word(SafePlace place) noexcept;

[[nodiscard]] SafePlace safe_place_of(const TrimmerStates& states) noexcept;

/// Travel from 0 to 1. Requires 0 <= `preset_travel` <= 1.
[[nodiscard]] double travel_at(SafePlace place, double preset_travel) noexcept;

/// One trimmer that the file adjusts.
struct TrimmerPlace {
  circuit::Adjustment adjustment;
  SafePlace safe = SafePlace::at_preset;
  double safe_travel = 0.0;
  double preset_travel = 0.0;
  bool reached = false;  ///< Of its target.
  /// Parts are out whose current it sets: its places are those of the whole stage.
  bool needs_all_parts = false;
};

struct TrimmerPlaces {
  circuit::CheckedCircuit at_safe_end;
  circuit::CheckedCircuit at_preset;
  std::vector<TrimmerPlace> trimmers = {};  ///< In the file's order.
  std::vector<std::size_t> order = {};      ///< Of `trimmers`, the one to set first first.
};

/// Requires that there is something to set (`why_no_preset`). The preset is that of the state asked
/// for, as the preset answer has it. With parts taken out, a trimmer that sets what they carry has
/// its places in the whole stage.
[[nodiscard]] std::variant<TrimmerPlaces, solve::NotSettled, ThermalStory> find_trimmer_places(
    const Setup& setup);

}  // namespace idlepoint::answers
