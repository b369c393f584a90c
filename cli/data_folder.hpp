// Where the files that are installed with the program lie: the shelf of part types, the drafts.
//
// Asked once a command by whatever reads a stage, and by `draft`. The program finds them beside
// itself, so an installed tree may be moved as a whole; a program run from the build tree finds
// those of the sources.
#pragma once

#include <string>

namespace idlepoint::cli {

/// The folder called `name` ("shelf", "drafts"): from the program's own place; else of the source
/// tree it was built from; else where it was to be installed. Where none of the three is there, the
/// first, so that a complaint names the folder that should be.
[[nodiscard]] std::string data_folder(const std::string& name);

}  // namespace idlepoint::cli
