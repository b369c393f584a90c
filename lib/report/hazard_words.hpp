// One hazard in words. Used by the text and the JSON of `hazards`.
#pragma once

#include <string>

#include "answers/hazards.hpp"

namespace idlepoint::report {

/// "114 W from the rails (100 W to 120 W), output 10.1 V; beyond what they are made for: Q606 and
/// Q607. Not so with VR602 at 0R."
[[nodiscard]] std::string hazard_in_words(const answers::Hazards& hazards,
                                          const answers::Hazard& hazard);

}  // namespace idlepoint::report
