// Where the installed shelf of part types lies.
//
// Asked once a command by whatever reads a stage. The program finds the shelf beside itself, so an
// installed tree may be moved as a whole; a program run from the build tree finds that of the
// sources.
#pragma once

#include <string>

namespace idlepoint::cli {

/// The shelf's folder: from the program's own place; else of the source tree it was built from;
/// else where it was to be installed. Where none of the three is there, the first, so that a
/// complaint names the folder that should be.
[[nodiscard]] std::string shelf_folder();

}  // namespace idlepoint::cli
