// A dead bias part and what is to stand in for it, side by side: volts at the string's current, and
// volts a degree against what the stage needs.
//
// Used by the `swap` answer. A bias part has two jobs: to hold the right volts, and to give way by
// as many millivolts a degree as the junctions on the heat sink do.
#pragma once

#include <optional>

#include "circuit/stand_in.hpp"
#include "solve/operating_point.hpp"

namespace idlepoint::answers {

struct StandInTest {
  double amps = 0.0;           ///< Through the old part, in the state that is asked for.
  double temperature_k = 0.0;  ///< Of the old part there; both are tested at it.
  double old_v = 0.0;
  double new_v = 0.0;
  double old_v_per_k = 0.0;  ///< At that current; usually negative.
  double new_v_per_k = 0.0;
  /// What the part's place must give, per kelvin of the output devices' heat sink, for the standing
  /// current to keep still: exact slopes of the cold stage. None without an `adjust`, or where the
  /// reading does not answer to that place.
  std::optional<double> needed_v_per_k;
  std::optional<double> amps_in_place = {};  ///< Through the stand-in, with the trimmers set anew.
  double coupling = 0.0;  ///< Share of that sink's rise that the place sees; 0: not on it.
};

/// The lead, 0 or 1, that stands higher.
[[nodiscard]] std::size_t positive_lead(const circuit::CheckedCircuit& stage,
                                        circuit::PartId part,
                                        const solve::OperatingPoint& state);

/// `stood_in` is `stage` with the stand-in in the place of `old_part`; `state` is that of `stage`.
/// None where the old part carries nothing, or one of the two does not settle by itself.
[[nodiscard]] std::optional<StandInTest> test_stand_in(const circuit::CheckedCircuit& stage,
                                                       const solve::OperatingPoint& state,
                                                       circuit::PartId old_part,
                                                       const circuit::StoodIn& stood_in);

}  // namespace idlepoint::answers
