// The power-up answer as text. Sentences: report/powerup_words.
#pragma once

#include <string>

#include "answers/powerup.hpp"
#include "report/page.hpp"

namespace idlepoint::report {

[[nodiscard]] std::string text_of(const answers::Powerup& answer, const Page& page);

}  // namespace idlepoint::report
