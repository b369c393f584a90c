// The power-up plan in sentences: where the trimmers stand, what each step proves, what stands
// behind a limit, what a setting on low rails comes to, what the lamp shows.
//
// Used by the text and the JSON of `powerup`. No number is made here.
#pragma once

#include <string>
#include <vector>

#include "answers/powerup.hpp"

namespace idlepoint::report {

/// "VR601 half way and VR602 at 0R"; "" without a trimmer to set.
[[nodiscard]] std::string safe_places_in_words(const answers::Powerup& answer);

/// "VR601 66 % of the way from e1 and VR602 at 101R"; "" without a preset.
[[nodiscard]] std::string presets_in_words(const answers::Powerup& answer);

/// "25 %": of the rails that are asked for, these being a fraction of the nominal ones.
[[nodiscard]] std::string share_of_rails(const answers::Powerup& answer, double rails);

/// "25 %, 8.25 V": the step, and the volts of its rails, equal ones of either sign once.
[[nodiscard]] std::string step_in_words(const answers::Powerup& answer,
                                        const answers::PowerupStep& step);

/// "at the rail, and right so", "no idle yet is right; leave VR602 alone".
[[nodiscard]] std::string what_it_tells(const answers::Powerup& answer,
                                        const answers::PowerupStep& step);

/// Why a step looks like a fault and is none: who is asleep yet, and what that does. "" where
/// nothing is.
[[nodiscard]] std::string why_it_looks_so(const answers::Powerup& answer,
                                          const answers::PowerupStep& step);

/// The same of all steps in one sentence; "" where nothing looks so.
[[nodiscard]] std::string on_the_way(const answers::Powerup& answer);

/// "7.5 mV (1 to 33)": the figure and its band; "-" where there is no state.
[[nodiscard]] std::string reading_in_words(const std::optional<answers::AtStep>& at_step,
                                           std::size_t reading);

/// "59 mV", "0.8 mV".
[[nodiscard]] std::string limit_in_words(double limit, answers::ReadingUnit unit);

/// "both halves on: D601, D602 and VR602; output at a rail: Q601": faults of one step, the nearest
/// first, a part once.
[[nodiscard]] std::string behind_limit(const answers::Powerup& answer,
                                       std::size_t step,
                                       const answers::SwitchOffLimit& limit);

/// The same of one reading over all steps; "" where it has no such limit.
[[nodiscard]] std::string behind_limits(const answers::Powerup& answer,
                                        std::size_t reading,
                                        bool is_above);

/// Limits that are much tighter while the trimmers stand at their safe end; one sentence a step.
[[nodiscard]] std::vector<std::string> tighter_limits(const answers::Powerup& answer);

/// "Bring `upper` to 9.4 mV at 90 % and it will be 31 mV at full rails."
[[nodiscard]] std::string set_too_low_in_words(const answers::Powerup& answer,
                                               const answers::SetOnLowRails& set);

/// The same, a paragraph a trimmer: "VR602, `upper` brought to 9.4 mV on low rails: 76 mV from 75 %
/// and 31 mV from 90 %. At 25 % and 50 % no place on the track gives it."
[[nodiscard]] std::vector<std::string> set_too_low_by_trimmer(const answers::Powerup& answer);

/// "dark: 0.4 V of its 230 V, 3 % of its current; rails at 99.8 %, 1.8 W into the stage".
[[nodiscard]] std::string lamp_in_words(const answers::LampAnswer& lamp,
                                        const answers::LampShows& shows);

/// What the lamp tells of the faults that turn the stage hard on, a sentence each.
[[nodiscard]] std::vector<std::string> lamp_remarks(const answers::Powerup& answer);

/// Before any volts are applied; a sentence each.
[[nodiscard]] std::vector<std::string> powerup_cautions(const answers::Powerup& answer);

/// How to be told of the lamp.
[[nodiscard]] std::string lamp_hint();

}  // namespace idlepoint::report
