// The standing currents of one stage, each from a neighbour.
//
// The position of the trimmer is an unknown of the same Newton iteration as the volts and the
// temperatures (solve/bordered_newton), so that the next standing current costs some milliseconds
// less than a search of the whole track. Used by the crossover answer.
#pragma once

#include <optional>
#include <variant>
#include <vector>

#include "answers/idle_setting.hpp"
#include "solve/adjust.hpp"
#include "solve/state_finder.hpp"

namespace idlepoint::answers {

/// A state from which others are found.
struct IdlePosition {
  double target = 0.0;
  solve::Rest rest;
  std::vector<double> travels;  ///< [adjustments]
};

class IdleFinder {
 public:
  /// `adjustment` is the one whose target moves; the others keep theirs, or their end of the track.
  IdleFinder(circuit::CheckedCircuit stage,
             std::size_t adjustment,
             const solve::Conditions& conditions);
  IdleFinder(const IdleFinder&) = delete;
  IdleFinder& operator=(const IdleFinder&) = delete;

  /// Searches the whole track. Why there is no such standing current, or none where there is.
  [[nodiscard]] std::optional<NoSetting> search(double target, const solve::SafeEnds& safe_ends);

  /// Takes over a position of a stage of the same drawing, with its trimmers at an end.
  void begin_from(const IdleFinder& other, double target);

  /// From the nearest position known; none where that does not get there. Requires a position.
  [[nodiscard]] std::optional<IdleSetting> at(double target,
                                              double swing_v,
                                              std::size_t points = gain_points);

  [[nodiscard]] const circuit::CheckedCircuit& stage() const noexcept { return stage_; }

 private:
  [[nodiscard]] const IdlePosition& nearest(double target) const;
  [[nodiscard]] std::optional<IdlePosition> reach(double target);
  [[nodiscard]] std::optional<IdlePosition> step(const IdlePosition& from, double target);
  void set_travels(const std::vector<double>& travels);

  circuit::CheckedCircuit stage_;
  std::size_t adjustment_;
  solve::Conditions conditions_;
  solve::StateFinder finder_;
  std::vector<std::size_t> tracks_;  ///< [adjustments]
  std::vector<bool> at_end_;         ///< [adjustments] stays where it is.
  std::vector<IdlePosition> known_;
};

}  // namespace idlepoint::answers
