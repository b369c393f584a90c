// The part of a command that is the same for all: open, set up, ask, report, exit status.
#pragma once

#include <optional>
#include <string>

#include "answers/setup.hpp"
#include "answers/thermal_story.hpp"
#include "complaints/render.hpp"
#include "exit_status.hpp"
#include "open_stage.hpp"
#include "report/not_settled.hpp"
#include "solve/not_settled.hpp"
#include "terminal.hpp"

namespace idlepoint::cli {

/// The stage that a command line asks about. None where it could not be made: then all has been
/// said on standard error.
/// `wanted_types` are looked up in the file, its types files and the shelf beside those of
/// `--with`;
/// `*` stands for the whole shelf.
[[nodiscard]] std::optional<answers::Setup> stage_for(
    const std::string& command,
    const Given& given,
    const std::vector<std::string>& wanted_types = {});

/// The same from what has been opened; complains where the drawing does not pass its checks.
[[nodiscard]] std::optional<answers::Setup> setup_from(
    const std::variant<OpenedStage, NotOpened>& opened);

/// A substitute is judged on working rails: what to do where they are set below 95 %.
[[nodiscard]] std::optional<Trouble> low_rails(const std::string& command,
                                               const answers::Setup& setup);

/// Tells the story of a stage that did not settle, on standard error.
ExitStatus tell(const answers::Setup& setup, const solve::NotSettled& story);

/// Tells of a stage that finds no rest as it warms up, on standard output.
ExitStatus tell(const std::string& command, const Given& given, const answers::ThermalStory& story);

/// 0 where the answer is good, else 1.
[[nodiscard]] ExitStatus status_of(bool answer_is_good) noexcept;

}  // namespace idlepoint::cli
