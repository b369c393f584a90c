// One channel of a job as `diagnose` takes it: its drawing, its readings, the channel that works.
//
// Used by cli/diagnose.cpp alone. Source: docs/commands.md, "diagnose".
#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "circuit/job.hpp"
#include "open_stage.hpp"
#include "options.hpp"

namespace idlepoint::cli {

/// What the job has to say of the channel that is asked about.
struct TakenFromJob {
  std::size_t channel = 0;
  std::vector<circuit::BenchReading> readings;
  std::vector<circuit::BenchReading> sound_channel;  ///< In the ids of the channel's own drawing.
  std::vector<circuit::PartId> good;
  std::vector<circuit::Edit> replaced;  ///< To be made where the readings are those after the work.
  std::vector<std::string> sentences;   ///< What was taken, and from which channel.
};

/// The channel of `--channel`, else the first with readings. Its readings before the work; those
/// after it, with what was replaced in its place, where `--after` asks, or where there are no
/// others.
///
/// Another channel counts as the one that works where it has figures of the same measurements with
/// the power on and all its figures lie where a sound stage's would.
[[nodiscard]] Tried<TakenFromJob> take_from_job(const circuit::Job& job, const Given& given);

}  // namespace idlepoint::cli
