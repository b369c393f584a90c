// The bench sheet as one HTML page that needs nothing else: no network, no file beside it.
//
// Used by cli/sheet. The page draws itself from the JSON of report/json_sheet; see
// lib/report/page.
#pragma once

#include <string>
#include <vector>

#include "answers/sheet.hpp"

namespace idlepoint::report {

/// One or two channels, which stand side by side.
[[nodiscard]] std::string html_of(const std::vector<answers::SheetChannel>& channels);

}  // namespace idlepoint::report
