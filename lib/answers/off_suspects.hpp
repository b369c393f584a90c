// Which single faults a meter on a dead stage would show between two points, and as what.
//
// Used by `poweroff`. A fault is left out unsolved where it cannot matter: in a network of
// resistances, opening a branch that carries a share of the test current moves the reading by no
// more than that share, and bridging two points by no more than their share of the test volts
// (reciprocity and compensation).
#pragma once

#include <string>
#include <vector>

#include "answers/off_figures.hpp"
#include "circuit/edits.hpp"

namespace idlepoint::answers {

/// What `hazards` tries (every single open and short, values at half and at twice), and leaks of
/// `usual_leak_ohm` in capacitors, diodes and from collector (drain) to the other leads.
[[nodiscard]] std::vector<circuit::Edit> off_faults(const circuit::Circuit& circuit);
inline constexpr double usual_leak_ohm = 10e3;

/// How often such a fault is met beside the others: its share of its row in answers/fault_odds.
[[nodiscard]] double usual_odds(const circuit::Circuit& circuit, const circuit::Edit& edit);

struct OffSuspect {
  std::string fault;
  double odds = 0.0;  ///< usual_odds.
  double rank = 0.0;  ///< Odds, times how clearly it shows, more where the meter is across it.
  ByRange<std::optional<double>> reads = {};  ///< None: open.
  ByRange<bool> tells = {};                   ///< Where a meter can tell it from a sound stage.
};

/// The faults that can be told between `points` in any range, the highest rank first. `sound`
/// belongs to `stage` with its power off. Cost: a compilation and four solves a fault that can
/// matter.
[[nodiscard]] std::vector<OffSuspect> off_suspects(const circuit::CheckedCircuit& stage,
                                                   const std::vector<circuit::Edit>& faults,
                                                   const circuit::VoltsBetween& points,
                                                   const ByRange<OffFigure>& sound,
                                                   const solve::Conditions& conditions);

}  // namespace idlepoint::answers
