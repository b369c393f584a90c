// The warmup answer as a page of text.
#pragma once

#include <string>

#include "answers/warmup.hpp"
#include "report/page.hpp"

namespace idlepoint::report {

/// The course at the marks of the clock, when to set and when to look again, what a soak and
/// another room do. Ends with a line end.
[[nodiscard]] std::string text_of(const answers::Warmup& answer, const Page& page);

/// What to do about a trouble after the stage has come to rest once, in a sentence.
[[nodiscard]] std::string later_advice(const answers::WarmupTrouble& trouble);

/// "40 s", "12 min", "1 h 20 min": a time as a clock on the wall gives it.
[[nodiscard]] std::string clock_time(double seconds);

}  // namespace idlepoint::report
