// The built program, run from the project's folder as a user runs it.
#pragma once

#include <string>

namespace idlepoint::tests {

struct Ran {
  int status = 0;
  std::string out;  ///< Standard output.
  std::string err;  ///< Standard error.
};

/// Runs `idlepoint WORDS` by the shell, so that quotes mean what they do for a user. `input` is its
/// standard input.
[[nodiscard]] Ran run_program(const std::string& words, const std::string& input = "");

/// As above, by a whole line that begins with `idlepoint`.
[[nodiscard]] Ran run_line(const std::string& line);

/// The text of a file of the project; fails the test where it cannot be read.
[[nodiscard]] std::string project_file(const std::string& path);

}  // namespace idlepoint::tests
