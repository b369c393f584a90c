// The values that the ten drafts are filled with in the tests, and what each stage should then
// show.
//
// Invented amplifiers of common proportions. Their idle currents were worked out apart from this
// program, with a simpler law: exponential junctions of the same saturation currents, constant
// gain, no bulk resistance, everything at 25 C.
#pragma once

#include <string>
#include <utility>
#include <vector>

namespace idlepoint::tests {

struct FilledDraft {
  std::string name;
  /// In place of the `?` of the statement of that name.
  std::vector<std::pair<std::string, std::string>> values;
  /// Where the trimmers stand, as `at=` writes it.
  std::vector<std::pair<std::string, std::string>> travels;
  double upper_v = 0.0;  ///< Across the upper emitter or source resistor.
  std::string middle;    ///< The reading that says how well the stage is centred.
  double middle_v = 0.0;
  double middle_within_v = 0.0;
};

[[nodiscard]] const std::vector<FilledDraft>& filled_drafts();

}  // namespace idlepoint::tests
