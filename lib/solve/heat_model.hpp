// The way of the heat: from each junction to its heat sink or the air, and from the sink to the
// air.
//
// Linear in the powers, so the warm state needs it as two matrices only. Used by the bordered
// Newton (warm state, warm trimmer settings), by the thermal loop gain and by the warm-up in time.
// Source: docs/models.md, "Heat".
#pragma once

#include <Eigen/Core>
#include <optional>
#include <vector>

#include "circuit/circuit.hpp"

namespace idlepoint::solve {

/// A part whose temperature is an unknown of the warm state: it sits on a heat sink, or its type
/// says how it stands in free air.
struct HeatedPart {
  circuit::PartId part;
  std::optional<std::size_t> sink;  ///< Among the circuit's heat sinks; none: in free air.
  double own_k_per_w = 0.0;         ///< Junction to case and washer, or junction to air.
  double coupling = 1.0;            ///< Share of the sink's rise that it sees.
};

/// With s the sinks' rises above ambient and P the parts' powers:
///   s = sink_base_k + sink_k_per_w * (sum of P on the sink),
///   T = ambient + coupling s + own_k_per_w P.
/// In equilibrium `sink_base_k` is 0 and `sink_k_per_w` the sinks' own; one implicit step of a
/// warm-up has other values of the same form.
struct HeatModel {
  double ambient_k = 298.15;
  std::vector<HeatedPart> parts;
  std::vector<std::size_t>
      part_of;                   ///< [parts of the circuit] index into `parts`, or parts.size().
  Eigen::VectorXd sink_k_per_w;  ///< [sinks]
  Eigen::VectorXd sink_base_k;   ///< [sinks]
  /// Scales every thermal resistance: 0 is the cold state, 1 the stage itself.
  double scale = 1.0;
};

/// Parts taken out have no heat; loosened ones stand in free air (their type's
/// `junction_to_ambient`, or 40 K/W).
[[nodiscard]] HeatModel heat_model(const circuit::Circuit& circuit);

/// The cold state's: no heated parts.
[[nodiscard]] HeatModel no_heat(const circuit::Circuit& circuit);

/// [parts][parts] rise of one part's temperature per watt in another.
[[nodiscard]] Eigen::MatrixXd rise_per_watt(const HeatModel& model);

/// [parts] temperatures, kelvin, without any power.
[[nodiscard]] Eigen::VectorXd base_temperatures(const HeatModel& model);

/// [sinks] rises above ambient at powers [parts].
[[nodiscard]] Eigen::VectorXd sink_rises(const HeatModel& model, const Eigen::VectorXd& power_w);

}  // namespace idlepoint::solve
