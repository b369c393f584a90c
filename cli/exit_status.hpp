// What the program's exit status says. Of several, the highest.
//
// Source: docs/commands.md, "Exit status".
#pragma once

namespace idlepoint::cli {

enum class ExitStatus {
  answered = 0,
  answer_is_no = 1,     ///< Out of reach, a limit broken, an error found by `check`, blanks.
  not_understood = 2,   ///< The command, a file, or a drawing that cannot be solved.
  not_settled = 3,      ///< No DC state was found.
  thermal_trouble = 4,  ///< It runs away as it warms up, or comes to rest too hot.
  our_bug = 70,
};

}  // namespace idlepoint::cli
