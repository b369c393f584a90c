// "What should my meter show at every point?"
//
// Asked by cli/readings.cpp; rendered by report/text_readings and report/json_readings.
#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "answers/hot_list.hpp"
#include "answers/reading_values.hpp"
#include "answers/setup.hpp"
#include "answers/thermal_margin.hpp"
#include "answers/thermal_story.hpp"
#include "solve/not_settled.hpp"
#include "solve/operating_point.hpp"

namespace idlepoint::answers {

/// The whole state, and what is read in it.
struct Readings {
  circuit::CheckedCircuit stage;
  solve::OperatingPoint state;  ///< Cold or warm, as asked.
  std::vector<ReadingValue> readings;
  std::optional<ColdMoment> cold = {};  ///< Beside a warm state alone, as is the next.
  std::optional<ThermalMargin> thermal = {};
  HotList hot = {};
  std::vector<std::string> changes = {};  ///< Edits made to the drawing, as faults are written.
  std::vector<std::string> warnings = {};
};

/// Solves the stage in the state that is asked for and reads it.
[[nodiscard]] std::variant<Readings, solve::NotSettled, ThermalStory> ask_readings(
    const Setup& setup);

/// What the state itself has to say beyond numbers: that there are other states, which parts are
/// over-stressed, which fuses will not hold.
[[nodiscard]] std::vector<std::string> state_warnings(const circuit::Circuit& circuit,
                                                      const solve::OperatingPoint& state);

/// As `state_warnings` of `warm`, then what the cold moment beside it has to say alone.
[[nodiscard]] std::vector<std::string> warnings_of_both(const circuit::Circuit& circuit,
                                                        const solve::OperatingPoint& warm,
                                                        const std::optional<ColdMoment>& cold);

}  // namespace idlepoint::answers
