// The preset of a stage with its output devices out: asked of the whole stage where it must be.
//
// Used by answers/preset alone.
#pragma once

#include <vector>

#include "answers/preset.hpp"

namespace idlepoint::answers {

/// `of_whole`: as from `set_with_all_parts`, at least one true. Trimmers of which it is true have
/// their figures from the whole stage, the others are set with the first in their places. The
/// readings are those of the stage as asked, every trimmer in its place.
[[nodiscard]] std::variant<Preset, solve::NotSettled, ThermalStory> ask_preset_without(
    const Setup& setup, const std::vector<bool>& of_whole);

}  // namespace idlepoint::answers
