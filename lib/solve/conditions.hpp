// Under which conditions a stage is solved.
#pragma once

namespace idlepoint::solve {

/// What the command line sets for one solve; faults and settings are edits of the circuit instead.
struct Conditions {
  double rails = 1.0;           ///< Fraction of every rail statement's volts, 0.01 to 1.5.
  bool load_connected = false;  ///< Loudspeaker in place: for full output, not for readings.
};

}  // namespace idlepoint::solve
