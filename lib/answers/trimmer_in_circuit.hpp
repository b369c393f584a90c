// The ohms at which a trimmer's place is found with the power off and nothing lifted.
//
// Its neighbours lie across it, so that a meter reads less than the track has: told beside the
// ohms of the trimmer by itself. Used by `preset` and `poweroff`.
#pragma once

#include <vector>

#include "answers/off_figures.hpp"
#include "circuit/part.hpp"

namespace idlepoint::answers {

/// Between two of its legs, first-named end to wiper, then wiper to the other end; a pair that
/// shares a joint is left out.
struct LegsInCircuit {
  circuit::VoltsBetween points;
  OffFigure ohms;
  OffFigure ohms_reversed;
};

struct TrimmerInCircuit {
  std::vector<LegsInCircuit> at_preset = {};
  std::vector<LegsInCircuit> at_safe_end = {};  ///< Empty without a safe end.
};

/// `stage` has its trimmers set; the other trimmers stay there. Requires a trimmer.
[[nodiscard]] TrimmerInCircuit trimmer_in_circuit(const circuit::CheckedCircuit& stage,
                                                  circuit::PartId trimmer,
                                                  std::optional<circuit::TrackEnd> safe_end,
                                                  const solve::Conditions& conditions);

}  // namespace idlepoint::answers
