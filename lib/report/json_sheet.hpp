// The bench sheet as JSON: what its page is drawn from.
//
// One object: `command`, and `channels`, each with the drawing, the objects that the other commands
// print with `--json`, letter for letter, and the solutions its sliders move through. Keys:
// docs/commands.md, "sheet".
#pragma once

#include <string>
#include <vector>

#include "answers/sheet.hpp"

namespace idlepoint::report {

/// Without blanks between its words.
[[nodiscard]] std::string json_of(const std::vector<answers::SheetChannel>& channels);

/// The JSON text without line ends and blanks outside its strings, and with every `<` written as
/// \u003c: it can stand in a script element of a page, whatever a file has put into it.
[[nodiscard]] std::string for_a_page(const std::string& json);

}  // namespace idlepoint::report
