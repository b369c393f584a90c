// The heat as JSON: margins beside warm figures, and the object of a stage that finds no rest.
#pragma once

#include <string>

#include "answers/thermal_margin.hpp"
#include "answers/thermal_story.hpp"
#include "report/json_pieces.hpp"

namespace idlepoint::report {

/// Adds `thermal_loop_gain`, `thermal_margin`, `reaches_one_at` and `too_hot_at`.
void add_thermal(Json& object,
                 const circuit::Circuit& circuit,
                 const answers::ThermalMargin& margin);

/// The object `runaway` of docs/commands.md.
[[nodiscard]] Json json_runaway(const answers::ThermalStory& story);

/// What a command prints in the place of its answer.
[[nodiscard]] std::string json_of(const std::string& command, const answers::ThermalStory& story);

}  // namespace idlepoint::report
