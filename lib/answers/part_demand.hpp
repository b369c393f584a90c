// What a stage asks of one transistor or diode, at rest and at the tops of a sine.
//
// Used by the ratings. Every rule: docs/commands.md, "Ratings".
#pragma once

#include <array>
#include <optional>
#include <vector>

#include "answers/played_loud.hpp"
#include "answers/safe_area.hpp"
#include "circuit/circuit.hpp"
#include "solve/operating_point.hpp"

namespace idlepoint::answers {

/// What all parts of a stage are asked from. All references outlive the demands.
struct StageAsked {
  const circuit::Circuit& circuit;
  const solve::OperatingPoint& state;  ///< At rest, warm or cold.
  const PlayedLoud* loud;              ///< Null where the stage could not be played.
  std::vector<double> swings;          ///< [nodes] as `node_swings`.
};

[[nodiscard]] StageAsked stage_asked(const circuit::Circuit& circuit,
                                     const solve::OperatingPoint& state,
                                     const PlayedLoud* loud);

class PartDemand {
 public:
  /// Of a part with a type. `stage` must outlive this.
  PartDemand(const StageAsked& stage, circuit::PartId id);

  /// Both rails where the part stands between the moving output and one of them, else the volts at
  /// rest and its share of the swing; mains high. Backwards across a diode, either way across a
  /// transistor; never negative.
  [[nodiscard]] double voltage_v() const;

  /// The largest of rest and both tops; none where they were not found.
  [[nodiscard]] std::optional<double> current_a() const;

  /// Backwards from base to emitter, the largest of rest and both tops, 0 where there is none.
  [[nodiscard]] std::optional<double> reverse_base_v() const;

  /// The part's share of the load's current, and the half it is the larger in; none where it does
  /// not stand across the moving output, or where that is not known.
  [[nodiscard]] std::optional<OutputPart> carries() const;

  /// Mean watts at the worst level of a sine. An output part's standing current is part of the
  /// sine; a driver's stays beside it. Requires `carries`.
  [[nodiscard]] double loud_w(const OutputPart& carried, double phase_rad) const;

  /// Its path over a cycle, mains high. Requires `carries`.
  [[nodiscard]] LoadLine load_line(const OutputPart& carried, double phase_rad) const;

 private:
  [[nodiscard]] bool sees_the_swing() const noexcept;
  /// Of the upper and the lower top.
  [[nodiscard]] std::optional<std::array<double, 2>> top_currents_a() const;
  [[nodiscard]] double across_v(std::size_t lead_1,
                                std::size_t lead_2,
                                const solve::OperatingPoint& state) const;
  [[nodiscard]] double reverse_base_v(const solve::OperatingPoint& state) const;

  const StageAsked& stage_;
  circuit::PartId id_;
  const circuit::Part& part_;
  double swing_ = 0.0;  ///< Between its outer leads, signed, for 1 V of the output.
  std::optional<OutputPart> output_;
};

}  // namespace idlepoint::answers
