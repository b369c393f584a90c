// Under which conditions a stage is solved.
#pragma once

namespace idlepoint::solve {

/// Which of the two states that matter.
enum class HeatState {
  cold,  ///< Every junction at ambient: the moment after switch-on.
  warm,  ///< The equilibrium that a warm-up from ambient reaches.
};

/// What the command line sets for one solve; faults and settings are edits of the circuit instead.
struct Conditions {
  double rails = 1.0;           ///< Fraction of every rail statement's volts, 0.01 to 1.5.
  bool load_connected = false;  ///< Loudspeaker in place: for full output, not for readings.
  HeatState heat = HeatState::cold;
};

}  // namespace idlepoint::solve
