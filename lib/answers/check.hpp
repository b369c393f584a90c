// "Did I copy the drawing right?"
//
// Asked by cli/check.cpp; rendered by report/text_check and report/json_check.
// Source: docs/commands.md, "check"; docs/language.md, "What is an error, what a warning".
#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "answers/printed_volts.hpp"
#include "answers/setup.hpp"
#include "answers/thermal_story.hpp"
#include "circuit/circuit.hpp"
#include "complaints/complaint.hpp"
#include "solve/not_settled.hpp"
#include "solve/operating_point.hpp"

namespace idlepoint::answers {

struct Check {
  circuit::Circuit circuit;
  std::vector<std::string> changes = {};   ///< Edits made, as faults are written.
  complaints::Complaints complaints = {};  ///< Errors and warnings, in order of place.
  /// Cold or warm as asked; cold where there is no warm one. None where an error or a blank stands.
  std::optional<solve::OperatingPoint> state = {};
  std::optional<ThermalStory> trouble = {};     ///< Why there is no warm state.
  std::vector<PrintedComparison> printed = {};  ///< Empty without a state.
  std::vector<std::string> warnings = {};       ///< What the figures need said beside them.
  bool out_of_reach = false;                    ///< Some `adjust` cannot be reached by its trimmer.
};

/// True where there is a state to rest in, no error, no blank, no disagreeing printed voltage, no
/// target out of reach.
[[nodiscard]] bool is_good(const Check& check) noexcept;

/// A drawing that the checks refused: its complaints are the answer.
[[nodiscard]] Check refuse_drawing(circuit::Circuit circuit, complaints::Complaints complaints);

/// A drawing that holds together: solved, then judged by what the numbers show.
[[nodiscard]] std::variant<Check, solve::NotSettled> ask_check(const Setup& setup);

}  // namespace idlepoint::answers
