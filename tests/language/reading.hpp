// Stages read from texts held in memory, for tests.
#pragma once

#include <map>
#include <string>

#include "circuit/circuit.hpp"
#include "language/read_stage.hpp"

namespace idlepoint::language {

/// Files by path, as the reader asks for them.
using Files = std::map<std::string, std::string>;

/// Gives `files` and nothing else.
[[nodiscard]] ReadOptions in_memory(Files files);

/// Reads from disk below the project's folder: paths such as "netlists/broken/blank.stage".
[[nodiscard]] ReadOptions in_project();

/// The circuit of a text that must be sound; fails the test with the complaints where it is not.
[[nodiscard]] circuit::Circuit sound(const std::string& text, const Files& files = {});

/// The complaints and warnings of a text, rendered; empty where there are none.
[[nodiscard]] std::string said_of(const std::string& text, const Files& files = {});

/// "kind@line:column", parted by blanks, in the order given.
[[nodiscard]] std::string kinds_of(const std::string& text, const Files& files = {});

[[nodiscard]] const circuit::Part& part(const circuit::Circuit& circuit, const std::string& name);

/// The name of the node at a part's lead; "-" where the lead is left off.
[[nodiscard]] std::string node_at(const circuit::Circuit& circuit,
                                  const std::string& part,
                                  std::size_t lead);

/// A minimal stage around the statements of a test.
[[nodiscard]] std::string around(const std::string& statements);

}  // namespace idlepoint::language
