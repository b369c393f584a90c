// Text to job: what was found, tested and changed on the bench, with the stage file of each
// channel.
//
// Used by `diagnose`. The grammar is that of every other file; docs/language.md, "Job files", says
// what its statements mean.
#pragma once

#include <string>

#include "circuit/job.hpp"
#include "complaints/result.hpp"
#include "language/read_stage.hpp"

namespace idlepoint::language {

/// An amplifier with more channels than this is refused: each has its stage file read.
inline constexpr std::size_t most_channels = 16;

/// The job of `text`, or every complaint about it and about its stage files in one list. Stage
/// files are read with `options`, from the job file's folder and those in it alone.
[[nodiscard]] complaints::Result<circuit::Job> read_job(const std::string& text,
                                                        const std::string& file_name,
                                                        const ReadOptions& options = {});

/// As above, from a path.
[[nodiscard]] complaints::Result<circuit::Job> read_job_file(const std::string& path,
                                                             const ReadOptions& options = {});

}  // namespace idlepoint::language
