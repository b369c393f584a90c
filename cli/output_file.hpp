// A page or a file of ours on the user's disk: written whole, or not at all.
//
// Used by every command that takes `-o FILE`. The text goes to the disk first and gets its name in
// one step after; where the disk is full or the program is killed in the middle, what stood there
// before still does. The file a command reads is never written over, nor any other without
// `--force`.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "circuit/circuit.hpp"
#include "options.hpp"

namespace idlepoint::cli {

/// `-o`, as --help shows it. `--output` is the same.
[[nodiscard]] Option output_option();
/// `--force`.
[[nodiscard]] Option force_option();

/// Where a command writes to.
struct OutputFile {
  std::string path;
  bool may_replace = false;         ///< `--force`: another file may stand there already.
  std::vector<std::string> inputs;  ///< Files the answer was read from: never replaced.
};

/// What `-o` and `--force` ask for; none without `-o`.
[[nodiscard]] std::optional<OutputFile> output_asked_for(const Given& given,
                                                         std::vector<std::string> inputs);

/// The files that a drawing was read from: its own, those it is based on, its types files.
[[nodiscard]] std::vector<std::string> files_of(const circuit::Circuit& circuit);

/// Why nothing may be written there; none where it may. Writes nothing: a long calculation asks
/// before it begins.
[[nodiscard]] std::optional<Trouble> refuse(const OutputFile& output);

/// Writes the file; none where it is there whole. On trouble nothing has changed. A link is
/// followed; a file that is replaced keeps its permissions.
[[nodiscard]] std::optional<Trouble> write_whole(const OutputFile& output, std::string_view text);

}  // namespace idlepoint::cli
