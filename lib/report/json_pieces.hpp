// Pieces that the JSON objects share. Keys and meaning: docs/commands.md.
//
// Numbers are SI, temperatures in degrees Celsius; keys keep the order they are written in, so that
// the same answer is the same text.
#pragma once

#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <vector>

#include "answers/reading_values.hpp"
#include "circuit/circuit.hpp"
#include "complaints/complaint.hpp"
#include "solve/conditions.hpp"
#include "solve/operating_point.hpp"

namespace idlepoint::report {

using Json = nlohmann::ordered_json;

/// The object every command begins with: `command` and `stage`.
[[nodiscard]] Json json_opening(const std::string& command, const circuit::Circuit& circuit);

/// `conditions`: room, rails as a fraction, the state solved, load, changes of the drawing.
[[nodiscard]] Json json_conditions(const circuit::Circuit& circuit,
                                   const solve::Conditions& conditions,
                                   const std::vector<std::string>& changes);

[[nodiscard]] Json json_solver(const solve::SolverReport& solver);

/// The list `readings`.
[[nodiscard]] Json json_readings(const circuit::Circuit& circuit,
                                 const std::vector<answers::ReadingValue>& readings);

/// A number, or null.
[[nodiscard]] Json number_or_null(const std::optional<double>& value);

/// An end of a band, or null without one.
[[nodiscard]] Json low_or_null(const std::optional<answers::Band>& band);
[[nodiscard]] Json high_or_null(const std::optional<answers::Band>& band);

/// One entry of a list of complaints: the first of its places, and what to do.
[[nodiscard]] Json json_complaint(const complaints::Complaint& complaint);

/// As printed: two blanks a level, a line end at the end. Text that is no UTF-8 is shown with
/// replacement marks.
[[nodiscard]] std::string printed(const Json& object);

}  // namespace idlepoint::report
