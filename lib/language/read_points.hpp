// Text to points: the file that `fit` reads, one `type` statement and its `point` statements.
//
// The grammar is that of every other file; docs/language.md, "Points files", says what a point is.
#pragma once

#include <string>

#include "circuit/type_points.hpp"
#include "complaints/result.hpp"
#include "language/read_stage.hpp"

namespace idlepoint::language {

/// The points of `text`, or every complaint about it.
[[nodiscard]] complaints::Result<circuit::TypePoints> read_points(const std::string& text,
                                                                  const std::string& file_name);

/// As above, from a path.
[[nodiscard]] complaints::Result<circuit::TypePoints> read_points_file(
    const std::string& path, const FileSource& files = read_from_disk);

}  // namespace idlepoint::language
