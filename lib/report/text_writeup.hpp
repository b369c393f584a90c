// What the technician is told when the owner's page has been written.
#pragma once

#include <string>

#include "answers/writeup.hpp"
#include "report/page.hpp"

namespace idlepoint::report {

/// Where it was written to, what reads outside as it was left, and the command that goes on from
/// there.
[[nodiscard]] std::string writeup_written(const answers::Writeup& writeup,
                                          const std::string& path,
                                          const Page& page);

}  // namespace idlepoint::report
