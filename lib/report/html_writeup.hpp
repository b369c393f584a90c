// The owner's page of a job: one HTML file without script or network, for a phone and for A4.
#pragma once

#include <string>

#include "answers/writeup.hpp"

namespace idlepoint::report {

/// The whole page. Everything from a file is shown as text, whatever it holds.
[[nodiscard]] std::string html_of(const answers::Writeup& writeup);

}  // namespace idlepoint::report
