// Trimmer positions at which readings have their target values, solved together.
//
// Used by the `preset` answer. The travels are unknowns of the same Newton iteration as the
// voltages (bordered system); bracketing along the travel where that stalls.
#pragma once

#include <optional>
#include <variant>
#include <vector>

#include "circuit/checked_circuit.hpp"
#include "solve/solve_stage.hpp"

namespace idlepoint::solve {

/// One trimmer's answer.
struct Setting {
  circuit::PartId trimmer;
  circuit::ReadingId reading;
  double travel = 0.0;                ///< 0 to 1.
  bool reached = false;               ///< Reading within `within` of the target.
  bool at_end = false;                ///< Driven past an end and set to it.
  double reading_value = 0.0;         ///< At the solution.
  double slope_per_travel = 0.0;      ///< d(reading)/d(travel), the other trimmers fixed.
  std::vector<double> other_travels;  ///< Further positions that give the target too.
};

/// Which of several positions is taken: the first one met from this end. Index as in the circuit's
/// adjustments; none: from the first-named end.
using SafeEnds = std::vector<std::optional<circuit::TrackEnd>>;

struct Adjusted {
  std::vector<Setting> settings;    ///< In the order of circuit.adjustments.
  circuit::CheckedCircuit circuit;  ///< With the travels set.
  OperatingPoint state;             ///< There.
  int newton_steps = 0;             ///< Of the last joint solve.
};

/// Thermal trouble: no position at all has a warm state, or the positions found have none together.
using AdjustedOrStory = std::variant<Adjusted, NotSettled, ThermalTrouble>;

/// Solves all `adjust` statements of the circuit together, in the state that `conditions` ask for.
[[nodiscard]] AdjustedOrStory solve_adjustments(const circuit::CheckedCircuit& circuit,
                                                const Conditions& conditions,
                                                const SafeEnds& safe_ends);

}  // namespace idlepoint::solve
