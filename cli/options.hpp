// The options of each command, and what a user wrote of them.
//
// The table is read by the parser, by --help, and by the words for an unknown option.
// Source: docs/commands.md.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "trouble.hpp"

namespace idlepoint::cli {

/// One option as --help shows it.
struct Option {
  std::string name;   ///< "--at".
  std::string value;  ///< "VR2=40%"; empty for a switch.
  std::string words;  ///< What it does, one line.
  bool repeatable = false;
  std::string other_name = {};  ///< "--output" for "-o"; its values are found under `name`.
};

/// The options of every command that solves, in the order --help lists them.
[[nodiscard]] const std::vector<Option>& options_of_a_solve();

/// What was written: words that are no options, and each option's values in order.
struct Given {
  std::vector<std::string> words;
  std::map<std::string, std::vector<std::string>> values;  ///< A switch has one empty value.

  [[nodiscard]] bool has(const std::string& option) const { return values.contains(option); }
  [[nodiscard]] std::vector<std::string> all(const std::string& option) const;
};

/// Sorts `words` into options and the rest. `--at=X` and `--at X` are the same. An option that is
/// not in `known`, one without its value, and a second one of a kind that is not repeatable are
/// troubles.
[[nodiscard]] Tried<Given> read_options(const std::string& command,
                                        const std::vector<std::string>& words,
                                        const std::vector<Option>& known);

}  // namespace idlepoint::cli
