// What every question is asked of: a checked stage, and the conditions on the bench.
//
// Filled by the command line from a stage file and its options; taken by readings, preset, check.
#pragma once

#include <string>
#include <vector>

#include "circuit/checked_circuit.hpp"
#include "solve/conditions.hpp"

namespace idlepoint::answers {

/// Faults, settings and other part types are already in `stage`; rails, load and the state that is
/// asked for are conditions.
struct Setup {
  circuit::CheckedCircuit stage;
  solve::Conditions conditions;
  complaints::Complaints warnings;   ///< Of reading and of the checks, in order of place.
  std::vector<std::string> changes;  ///< Edits made to the drawing, as faults are written.
};

/// A warning in one line, for a list: "quarry.stage, line 12: R8 of 0R33 looks like ...".
[[nodiscard]] std::string in_one_line(const complaints::Complaint& complaint);

/// The state that is answered where nobody asks for one: warm where any part can heat.
[[nodiscard]] solve::HeatState usual_state(const circuit::Circuit& circuit);

/// What the conditions ask to be said, whatever the numbers: that stand-in sources do not follow
/// `--rails`, that nothing can heat in a stage that is asked for warm.
[[nodiscard]] std::vector<std::string> warnings_of_conditions(const Setup& setup);

/// The warnings of the drawing, a line each, then those of the conditions.
[[nodiscard]] std::vector<std::string> standing_warnings(const Setup& setup);

}  // namespace idlepoint::answers
