// How a stage's heat sinks warm and cool in time, and where that ends.
//
// Steps of solve/time_steps on solve/heating_stage, their length governed by the estimated error.
// Used by the `warmup` answer, which reads the moments in between.
#pragma once

#include <limits>
#include <optional>
#include <vector>

#include "solve/heating_stage.hpp"
#include "solve/time_steps.hpp"

namespace idlepoint::solve {

/// A stretch of time under unchanging conditions.
struct Heating {
  /// Without an end it goes on to equilibrium.
  double lasts_s = std::numeric_limits<double>::infinity();
  Eigen::VectorXd extra_w;  ///< [sinks] put into the sinks beside the parts' own watts.
};

/// The first moment at which a junction stands at its maximum.
struct LimitPassed {
  double seconds = 0.0;
  ThermalTrouble trouble;  ///< `kind` is not yet judged.
};

/// What was followed. Times count from its beginning.
struct WarmUp {
  enum class End {
    at_rest,    ///< Within a thousandth of the way of `rest`, the equilibrium.
    time_up,    ///< `lasts_s` is over.
    runs_away,  ///< Beyond 400 C, or no stable state further on.
    swings,     ///< Still on the move after 2000 steps.
  };
  End end = End::at_rest;
  /// Rises of the sinks above ambient at the ends of steps; two at one time where the junctions
  /// left a rest that ended for another.
  std::vector<TimePoint> points;
  std::vector<Rest> rests;  ///< [points]
  Rest rest;                ///< The equilibrium, or the last state.
  std::optional<LimitPassed> passed;
};

/// From `begin`, a state of `stage`. The local error of a step is kept below 0.1 mK and a hundred
/// thousandth of the rise.
[[nodiscard]] WarmUp follow(HeatingStage& stage, const Rest& begin, const Heating& heating);

/// The state at a time of a warm-up, by its sinks' temperatures then; the last one beyond its end.
/// On success `stage.moment` may be asked.
[[nodiscard]] std::optional<Rest> rest_at(HeatingStage& stage,
                                          const WarmUp& warm_up,
                                          double seconds);

/// How small departures of the sinks from an equilibrium die away, or grow.
struct ReturnToRest {
  bool is_stable = true;
  std::vector<double> time_constants_s;  ///< Of the modes that die away, the slowest first.
  std::optional<double> swing_s;         ///< Period, where a mode swings.
};

/// At the state that `stage` made last.
[[nodiscard]] ReturnToRest return_to_rest(HeatingStage& stage, const Rest& rest);

}  // namespace idlepoint::solve
