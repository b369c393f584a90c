// From a command line to a stage that can be asked: the file read, its drawing checked, the edits
// of the options made.
//
// The way in of every command that takes a stage file.
#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "answers/setup.hpp"
#include "circuit/circuit.hpp"
#include "circuit/edits.hpp"
#include "complaints/complaint.hpp"
#include "language/read_stage.hpp"
#include "options.hpp"
#include "solve/conditions.hpp"

namespace idlepoint::cli {

/// A file that could be read, and what the options ask of it. Not yet judged as a drawing.
struct OpenedStage {
  circuit::Circuit circuit;
  complaints::Complaints warnings;   ///< Of reading.
  std::vector<circuit::Edit> edits;  ///< In the order they are made.
  solve::Conditions conditions;
  std::optional<solve::HeatState> asked_state;  ///< `--cold` or `--warm`; none: the usual one.
};

/// Why there is no stage: words about the command line, or complaints, ready for standard error.
struct NotOpened {
  std::string text;
};

/// Among `wanted_types`: every type of the shelf.
inline constexpr const char* whole_shelf = "*";

/// `wanted_types`: types to have at hand beside those that the file and `--with` name.
[[nodiscard]] std::variant<OpenedStage, NotOpened> open_stage(
    const std::string& command,
    const Given& given,
    const std::vector<std::string>& wanted_types = {});

/// How a stage file, or those of a job, are read: with the installed shelf, and with the types of
/// `--with` and `wanted_types` at hand.
[[nodiscard]] language::ReadOptions read_options_for(
    const Given& given, const std::vector<std::string>& wanted_types = {});

/// As `open_stage` for a drawing that has been read already: a channel of a job.
[[nodiscard]] std::variant<OpenedStage, NotOpened> open_drawing(language::StageFile file,
                                                                const Given& given);

/// The drawing did not pass its checks: every error and warning.
struct Refused {
  complaints::Complaints complaints;
};

/// Checks the drawing as written, then makes the edits.
[[nodiscard]] std::variant<answers::Setup, Refused, NotOpened> set_up(const OpenedStage& opened);

}  // namespace idlepoint::cli
