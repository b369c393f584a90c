// A command: its name, the question it answers, its options, an example, and the function that
// runs.
//
// The table of all is in commands.cpp; each command has its own file.
#pragma once

#include <string>
#include <vector>

#include "exit_status.hpp"
#include "options.hpp"

namespace idlepoint::cli {

struct Command {
  std::string name;
  std::string usage;     ///< What follows the name: "FILE [options]".
  std::string question;  ///< One sentence.
  std::string more;      ///< What else --help says; may be empty.
  std::vector<Option> options;
  std::string example;  ///< A whole command line that works in the project's folder.
  ExitStatus (*run)(const Command& command, const Given& given);
};

[[nodiscard]] Command capacitor_command();
[[nodiscard]] Command check_command();
[[nodiscard]] Command draft_command();
[[nodiscard]] Command hazards_command();
[[nodiscard]] Command readings_command();
[[nodiscard]] Command poweroff_command();
[[nodiscard]] Command preset_command();
[[nodiscard]] Command powerup_command();
[[nodiscard]] Command spread_command();
[[nodiscard]] Command sheet_command();
[[nodiscard]] Command shelf_command();
[[nodiscard]] Command swap_command();
[[nodiscard]] Command warmup_command();
[[nodiscard]] Command crossover_command();
[[nodiscard]] Command fault_command();
[[nodiscard]] Command diagnose_command();
[[nodiscard]] Command fit_command();
[[nodiscard]] Command writeup_command();

/// In the order of the bench.
[[nodiscard]] const std::vector<Command>& all_commands();

}  // namespace idlepoint::cli
