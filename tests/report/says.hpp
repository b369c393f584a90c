// Whether a text holds some words; for texts too long to compare whole.
#pragma once

#include <string>

namespace idlepoint::tests {

inline bool says(const std::string& text, const std::string& words) {
  return text.find(words) != std::string::npos;
}

}  // namespace idlepoint::tests
