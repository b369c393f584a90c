// Paths written inside a stage file: always inside its own folder.
//
// A stage file that came by post must not be able to read anything else on the disk.
#pragma once

#include <string>
#include <string_view>
#include <variant>

namespace idlepoint::language {

/// The folder of a path with its last `/`; empty for a bare name and for "-".
[[nodiscard]] std::string folder_of(std::string_view path);

/// Why a path is refused, in words that follow its name: "climbs above the stage file's folder".
struct PathRefused {
  std::string words;
};

/// `written`, relative to `from_folder` (itself relative to the stage file's folder, ending in `/`
/// or empty), without `.` and `..`; refused where it is absolute, empty or climbs above the folder
/// of the file that was asked for, a `stage` or a `job` file.
[[nodiscard]] std::variant<std::string, PathRefused> path_inside(
    std::string_view from_folder, std::string_view written, std::string_view asked_for = "stage");

}  // namespace idlepoint::language
